import type { Bed, Job } from '../estimate/job/bed.ts'
import { jobQuantities } from '../estimate/job/quantities.ts'
import { workOutPrice } from '../estimate/price/firm-price.ts'
import type { ToldReading } from '../estimate/reading/read-beds.ts'
import { usualLayers } from '../estimate/reading/read-layers.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import type { StoredBeds } from '../estimate/understood/stored.ts'
import { unitSystem } from '../estimate/units/units.ts'
import { t } from '../language/catalogue.ts'
import { figureInWords, moneyInWords } from '../language/money-in-words.ts'
import { quantityInWords } from '../language/quantity-in-words.ts'
import { soldInWords } from '../language/sold-in-words.ts'
import { type BedView, viewReadBeds } from '../requests/bed-view.ts'
import { type CautionView, viewCautions } from '../requests/caution-view.ts'
import { depthInWords, layersListed } from '../requests/layers-in-words.ts'
import { measuredOf } from './measure-form.ts'
import { readMeasured } from './read-measured.ts'
import type { Sheet, SheetBed } from './sheet.ts'

/** What follows from a sheet as typed: of each bed, and of all that can be read so far. */
export interface WorkedSheet {
  beds: WorkedBed[]
  /** Null while no bed can be read. */
  sums: SheetSums | null
}

export interface WorkedBed {
  /** By field: how it was understood, or that it can’t be read yet; '' says nothing. */
  echoes: Record<string, string>
  /** Null while it can’t be read, or is left out. */
  view: BedView | null
}

export interface SheetSums {
  figures: { label: string; value: string }[]
  cautions: CautionView[]
  /** The same in one sentence, to be heard. */
  said: string
  read: number
  all: number
}

/** Works a sheet out as far as it can be read: nothing is refused, and nothing stored. `postcode` is where the beds are. */
export function workOutSheet(
  sheet: Sheet,
  stored: StoredBeds,
  table: RateTable,
  postcode: string,
): WorkedSheet {
  const { rows, measured } = measuredOf(sheet, stored.told)
  const reading = readMeasured({ ...measured, postcode }, stored, table)
  const read = reading.ok ? reading.job.beds : reading.readable
  const views = viewReadBeds(rows.length > 0 ? read : [], table, 'en', 'now')
  const placeOf = new Map(rows.map(({ index }, place) => [index, place]))
  return {
    beds: sheet.beds.map((bed, index) => {
      const place = placeOf.get(index)
      if (place === undefined) return { echoes: {}, view: null }
      return { echoes: echoesOf(bed, place, reading, table), view: views[place] ?? null }
    }),
    sums: sumsOf(sheet, reading, read, table, postcode),
  }
}

const FIELDS = ['depth', 'lyingDepth', 'cutOuts', 'noEdge', 'carry'] as const

function echoesOf(
  bed: SheetBed,
  place: number,
  reading: ToldReading,
  table: RateTable,
): Record<string, string> {
  const faulty = new Set(reading.ok ? [] : reading.faults.map(fault => fault.field))
  const echo = (told: string, typed: string | undefined) => {
    const at = `beds.${place}.${told}`
    if (typed && faulty.has(at)) return t('en', 'form.unreadable')
    return typed ? (reading.echoes[at] ?? '') : ''
  }
  // Of a bed whose sizes are as told, what was typed counts for nothing.
  const sizes = bed.asTold
    ? []
    : Object.entries(bed.sizes).map(([name, typed]) => [`sizes.${name}`, echo(`sizes.${name}`, typed)])
  const others = FIELDS.map(name => [name, echo(name === 'lyingDepth' ? 'lying' : name, bed[name])])
  const usual = bed.depth === '' ? [['depth', usualDepth(bed, table)]] : []
  const layers = bed.layers.map((layer, index) => [
    `layers.${index}.depth`,
    echo(`layers.${index}.depth`, layer.depth),
  ])
  const finish = [['finish', usualBeneath(bed, table)]]
  return Object.fromEntries([...sizes, ...others, ...usual, ...layers, ...finish])
}

/** What a finish usually lies on, where nothing lies beneath this bed: a hint and no more. */
function usualBeneath(bed: SheetBed, table: RateTable): string {
  const finish = table.finishes.find(one => one.slug === bed.finish)
  const usual = finish && bed.layers.length === 0 ? usualLayers(finish, table) : []
  return usual.length > 0 ? `Usually on: ${layersListed(usual, table, 'en')}` : ''
}

/** How deep a bed gets its finish where no depth is given, as it is echoed: '= 3 in, as usual'. */
export function usualDepth(bed: SheetBed, table: RateTable): string {
  const finish = table.finishes.find(one => one.slug === bed.finish) ?? table.finishes[0]
  return finish ? `= ${depthInWords(finish.depth.usual, table, 'en')}, as usual` : ''
}

function sumsOf(
  sheet: Sheet,
  reading: ToldReading,
  read: (Bed | null)[],
  table: RateTable,
  postcode: string,
): SheetSums | null {
  const beds = read.filter(bed => bed !== null)
  if (beds.length === 0) return null
  const extras = table.extras.filter(extra => sheet.extras.includes(extra.slug))
  const job: Job = reading.ok ? reading.job : { beds, extras, postcode }
  const { area } = unitSystem(table.units)
  const price = workOutPrice(job, table)
  const finishOf = (slug: string) => table.finishes.find(finish => finish.slug === slug)!
  const figures = [
    { label: 'Area', value: quantityInWords(jobQuantities(job, table).area.toFixed(4), area, 'en', 0) },
    ...price.toOrder.map(({ finish, amount }) => ({
      label: `${finishOf(finish).name.en} to order`,
      value: soldInWords(amount, finishOf(finish), table, 'en'),
    })),
    { label: 'Labor hours', value: figureInWords(price.laborHoursTotal, 'en') },
    { label: 'Price at your rates', value: moneyInWords(price.total, table.currency, 'en') },
  ]
  const said = figures.map(({ label, value }) => `${label}: ${value}`).join('. ')
  const cautions = viewCautions(job, price.shopping, table)
  return { figures, cautions, said, read: beds.length, all: read.length }
}
