import type { SectionLayer } from '../drawing/section.ts'
import type { Bed, Layer } from '../estimate/job/bed.ts'
import { partOf } from '../estimate/job/layers.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { unitSystem } from '../estimate/units/units.ts'
import { t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { figureInWords } from '../language/money-in-words.ts'

/** A depth as people read it, '3 in' or '7.5 cm'. */
export function depthInWords(depth: string, table: RateTable, language: Language): string {
  return t(language, `beds.unit-${unitSystem(table.units).depth}`, { n: figureInWords(depth, language, 2) })
}

/** What lies beneath, from the top down: 'Under it: Landscape fabric; Compost, 2 in'; '' for nothing. */
export function layersInWords(layers: Layer[], table: RateTable, language: Language): string {
  if (layers.length === 0) return ''
  return t(language, 'beds.beneath', { list: layersListed(layers, table, language) })
}

/** Those alone: 'Landscape fabric; Compost, 2 in'. */
export function layersListed(layers: Layer[], table: RateTable, language: Language): string {
  return layers
    .map(layer => {
      const name = partOf(layer).name[language]
      return 'finish' in layer
        ? t(language, 'beds.layer-deep', {
            finish: name,
            depth: depthInWords(layer.depth.toString(), table, language),
          })
        : name
    })
    .join('; ')
}

/** A bed cut through, for its drawing; null where nothing lies beneath. */
export function sectionOf(bed: Bed, table: RateTable, language: Language): SectionLayer[] | null {
  if (bed.layers.length === 0) return null
  const top: Layer = { finish: bed.finish, depth: bed.depth }
  return [top, ...bed.layers].map(layer => {
    if ('extra' in layer) return { label: layer.extra.name[language], deep: null, hatch: 'dots', colour: '' }
    const { name, hatch, swatch } = layer.finish
    const depth = depthInWords(layer.depth.toString(), table, language)
    return {
      label: t(language, 'beds.layer-deep', { finish: name[language], depth }),
      deep: layer.depth.toNumber(),
      hatch,
      colour: swatch,
    }
  })
}
