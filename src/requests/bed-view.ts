import { type BedDrawing, commonScale, drawBed } from '../drawing/bed.ts'
import { drawSectionAlone } from '../drawing/section.ts'
import type { Bed, StopTold } from '../estimate/job/bed.ts'
import { outlineOf } from '../estimate/job/outline.ts'
import { bedQuantities, toldSizes } from '../estimate/job/quantities.ts'
import { shapeOf, shapeTold } from '../estimate/shapes/all-shapes.ts'
import type { Outline } from '../estimate/shapes/outline.ts'
import { listOf } from '../estimate/shapes/sizes.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { jobStored, type StoredBeds } from '../estimate/understood/stored.ts'
import { showLength } from '../estimate/units/show.ts'
import { unitSystem } from '../estimate/units/units.ts'
import { t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { quantityInWords } from '../language/quantity-in-words.ts'
import { unitsInWords } from '../language/units-in-words.ts'
import type { Decimal } from '../lib/decimal.ts'
import { besidesInWords, cutOutsInWords } from './besides-in-words.ts'
import { depthInWords, layersInWords, sectionOf } from './layers-in-words.ts'

/** One bed as a page shows it: everything in words of the page's language, drawings as SVG markup. */
export interface BedView {
  /** 'Rectangle, 20 ft × 5 ft' */
  title: string
  count: number
  /** Of one bed; null where it isn't known. */
  area: string | null
  edge: string | null
  planted: string
  lying: string
  measured: string
  /** 'Shredded wood' */
  finish: string
  /** '3 in' */
  depth: string
  /** 'Cut out: 3 of 2 ft across', 'No edge along 12 ft' and what else was said of this bed; mostly nothing. */
  besides: string[]
  /** 'Under it: Landscape fabric; Compost, 2 in', the first of `besides`; mostly ''. */
  beneath: string
  drawing: string | null
  /** Where it is, in a job of several stops. */
  stop?: StopTold
}

/**
 * Words and drawings for stored beds, drawn to one scale as far as the smallest stay visible. `table` is the version that they were told under;
 * null stands for a bed that can't be read. `prefix` begins the ids of the drawings, unique on their page.
 */
export function viewBeds(
  stored: StoredBeds,
  table: RateTable,
  language: Language,
  prefix = 'bed',
): (BedView | null)[] {
  const reading = jobStored(stored, table)
  const views = viewReadBeds(reading.ok ? reading.job.beds : reading.readable, table, language, prefix)
  const { beds, stops = [] } = stored.told
  if (stops.length === 0) return views
  return views.map((view, index) => view && { ...view, stop: stops[beds[index]?.stop ?? 0] })
}

/** The same of beds that have been read already. */
export function viewReadBeds(
  beds: (Bed | null)[],
  table: RateTable,
  language: Language,
  prefix = 'bed',
): (BedView | null)[] {
  const drawn = beds.map(bed => bed && { outline: outlineOf(bed), sizes: sizesInWords(bed, table, language) })
  const outlined = drawn.flatMap(one => (one?.outline ? [{ outline: one.outline, sizes: one.sizes }] : []))
  const scale = outlined.length > 0 ? commonScale(outlined) : undefined
  return beds.map((bed, index) => {
    const one = drawn[index]
    if (!bed || !one) return null
    const { outline, sizes } = one
    return viewBed(bed, outline, { sizes, scale, id: `${prefix}-${index + 1}` }, table, language)
  })
}

/** Each size of a bed as people read it: '12 ft 6 in', '100 square feet', '2 cubic yards'. */
export function sizesInWords(bed: Bed, table: RateTable, language: Language): Record<string, string> {
  const system = unitSystem(table.units)
  const lengthInWords = (value: Decimal) => unitsInWords(showLength(value, system), language)
  const words = shapeOf(bed.shape).sizes.map(({ name, reads }) => {
    if (reads === 'lengths') {
      const list = listOf(toldSizes(bed), name)
      return [name, list.map(lengthInWords).join(', ')]
    }
    const { value } = bed.sizes[name]!
    if (reads === 'length') return [name, lengthInWords(value)]
    if (reads === 'area') return [name, quantityInWords(value.toFixed(4), system.area, language)]
    return [name, quantityInWords(value.div(system.volumesPerBulk).toFixed(4), system.bulk, language)]
  })
  return Object.fromEntries(words)
}

function viewBed(
  bed: Bed,
  outline: Outline | null,
  drawn: Pick<BedDrawing, 'sizes' | 'scale' | 'id'>,
  table: RateTable,
  language: Language,
): BedView {
  const system = unitSystem(table.units)
  const { area, edge } = bedQuantities(bed, table)
  const measured = shapeOf(bed.shape).sizes.every(({ reads }) => reads === 'length' || reads === 'lengths')
  const title = t(language, `beds.title-${shapeTold(bed.shape)}`, drawn.sizes)
  const cutOuts = cutOutsInWords(bed, table, language)
  const beneath = layersInWords(bed.layers, table, language)
  const section = sectionOf(bed, table, language)
  const { hatch, swatch } = bed.finish
  const options = {
    ...drawn,
    title: [title, cutOuts.words, beneath].filter(Boolean).join('. '),
    hatch,
    colour: swatch,
    unit: t(language, `beds.scale-${system.length}`),
    cutOuts,
    ...(section && { section }),
  }
  return {
    title,
    count: bed.count,
    area: measured ? quantityInWords(area.toFixed(4), system.area, language, 0) : null,
    edge: edge && quantityInWords(edge.toFixed(4), system.length, language, 0),
    planted: t(language, `beds.planted-${bed.planted}`),
    lying: lyingInWords(bed, table, language),
    measured: t(language, `beds.measured-${bed.measuredBy}`),
    finish: bed.finish.name[language],
    depth: depthInWords(bed.depth.toString(), table, language),
    beneath,
    besides: [beneath, ...besidesInWords(bed, cutOuts.words, table, language)].filter(Boolean),
    drawing: outline
      ? drawBed(outline, options)
      : section && drawSectionAlone(section, drawn.id, options.title),
  }
}

function lyingInWords({ lying }: Bed, table: RateTable, language: Language): string {
  if (lying.layer) return t(language, `beds.lying-${lying.layer}`)
  if (lying.m.isZero()) return t(language, 'beds.lying-bare')
  return t(language, 'beds.lying-depth', { depth: depthInWords(lying.m.toString(), table, language) })
}
