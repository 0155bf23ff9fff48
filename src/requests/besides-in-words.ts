import type { CutOutWords } from '../drawing/cut-outs.ts'
import type { Bed } from '../estimate/job/bed.ts'
import { valuesOf } from '../estimate/shapes/sizes.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { showArea, showLength } from '../estimate/units/show.ts'
import { unitSystem } from '../estimate/units/units.ts'
import { t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { unitsInWords } from '../language/units-in-words.ts'

/** What is cut out of a bed: '2 ft' or '4 ft × 3 ft' for the drawing, 'Cut out: 3 of 2 ft across' for all; '' for nothing. */
export function cutOutsInWords(bed: Bed, table: RateTable, language: Language): CutOutWords {
  const system = unitSystem(table.units)
  const each = bed.cutOuts.map(({ shape, sizes, count }) => {
    const words: Record<string, string> = Object.fromEntries(
      Object.entries(valuesOf(sizes)).map(([name, value]) => [
        name,
        unitsInWords(name === 'area' ? showArea(value, system) : showLength(value, system), language),
      ]),
    )
    const one = t(language, `beds.cut-out-${shape}`, words)
    const said = count === 1 ? one : t(language, 'beds.cut-out-many', { count, one })
    return { figure: words.diameter ?? one, said }
  })
  const list = each.map(({ said }) => said).join('; ')
  return {
    figures: each.map(({ figure }) => figure),
    words: list && t(language, 'beds.cut-outs', { list }),
  }
}

/** What else was said of one bed, in words; `cutOuts` are those of `cutOutsInWords`. */
export function besidesInWords(bed: Bed, cutOuts: string, table: RateTable, language: Language): string[] {
  const system = unitSystem(table.units)
  const noEdge = bed.noEdge.isZero() ? '' : unitsInWords(showLength(bed.noEdge, system), language)
  const list = bed.extras.map(({ name }) => name[language]).join(', ')
  return [
    bed.work === 'new' ? t(language, 'beds.work-new') : '',
    cutOuts,
    noEdge && t(language, 'beds.no-edge', { length: noEdge }),
    list && t(language, 'beds.extras', { list }),
  ].filter(Boolean)
}
