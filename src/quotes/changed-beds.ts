import type { Bed } from '../estimate/job/bed.ts'
import { bedQuantities } from '../estimate/job/quantities.ts'
import { shapeOf } from '../estimate/shapes/all-shapes.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { jobStored, type StoredBeds } from '../estimate/understood/stored.ts'
import { unitSystem } from '../estimate/units/units.ts'
import { t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { figureInWords } from '../language/money-in-words.ts'
import { quantityInWords } from '../language/quantity-in-words.ts'
import { type Decimal, sumOf } from '../lib/decimal.ts'
import { depthInWords, layersListed } from '../requests/layers-in-words.ts'
import type { Priced } from './pricing.ts'

/**
 * What differs between the beds as told and as priced, a sentence each, under the numbers that they were told by; a size
 * counts where it differs by `least`, a share of what was told. Nothing where the beds were priced as told.
 */
export function changedBeds(told: StoredBeds, priced: Priced, least: string, language: Language): string[] {
  const table = priced.rates.body
  const { beds } = priced.told
  if (!beds.some(({ toldBed }) => toldBed !== undefined)) return []
  const reading = jobStored(told, table)
  const before = reading.ok ? reading.job.beds : reading.readable
  const sentences = before.flatMap((bed, index) => {
    const at = beds.findIndex(one => one.toldBed === index)
    if (at < 0) return [t(language, 'why.gone', { n: index + 1 })]
    const change = bed && changeOf(bed, priced.job.beds[at]!, table, least, language)
    return change ? [t(language, change.key, { n: index + 1, now: change.now, before: change.before })] : []
  })
  const found = priced.job.beds.filter((_bed, index) => (beds[index]!.toldBed ?? null) === null)
  return [...sentences, ...foundInWords(found, table, language)]
}

interface Change {
  key: 'why.measured' | 'why.gets' | 'why.beneath' | 'why.needs'
  now: string
  before: string
}

// The first that tells: its size, then what it gets, then how much of that.
function changeOf(
  told: Bed,
  now: Bed,
  table: RateTable,
  least: string,
  language: Language,
): Change | undefined {
  const { area, bulk, volumesPerBulk } = unitSystem(table.units)
  const [areas, volumes] = (['area', 'inPlace'] as const).map(
    figure =>
      [told, now].map(bed => bedQuantities(bed, table)[figure].times(bed.count)) as [Decimal, Decimal],
  ) as [[Decimal, Decimal], [Decimal, Decimal]]
  const words = (figure: Decimal, decimals = 0) => figureInWords(figure.toFixed(4), language, decimals)
  if (hasArea(told) && hasArea(now) && differs(areas, least) && words(areas[0]) !== words(areas[1]))
    return {
      key: 'why.measured',
      now: quantityInWords(areas[1].toFixed(4), area, language, 0),
      before: words(areas[0]),
    }
  const gets = ({ finish, depth }: Bed) =>
    told.finish.slug === now.finish.slug
      ? depthInWords(depth.toString(), table, language)
      : finish.name[language]
  if (gets(told) !== gets(now)) return { key: 'why.gets', now: gets(now), before: gets(told) }
  const beneath = ({ layers }: Bed) => layersListed(layers, table, language) || t(language, 'why.nothing')
  if (beneath(told) !== beneath(now)) return { key: 'why.beneath', now: beneath(now), before: beneath(told) }
  if (!differs(volumes, least)) return undefined
  const [few, many] = volumes.map(figure => figure.div(volumesPerBulk)) as [Decimal, Decimal]
  return {
    key: 'why.needs',
    now: quantityInWords(many.toFixed(4), bulk, language, 1),
    before: words(few, 1),
  }
}

function hasArea({ shape }: Bed): boolean {
  return shapeOf(shape).sizes.every(({ reads }) => reads !== 'volume')
}

function differs([before, after]: [Decimal, Decimal], least: string): boolean {
  return after.minus(before).abs().gt(before.times(least))
}

function foundInWords(found: Bed[], table: RateTable, language: Language): string[] {
  if (found.length === 0) return []
  const area = sumOf(found.map(bed => bedQuantities(bed, table).area.times(bed.count)))
  const now = quantityInWords(area.toFixed(4), unitSystem(table.units).area, language, 0)
  const count = found.length
  return [t(language, count === 1 ? 'why.found' : 'why.found-several', { count, now })]
}
