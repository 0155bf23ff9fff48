import type { BedTold, Told } from '../estimate/job/bed.ts'
import { MOST_BEDS_OF_STAFF, type ToldReading } from '../estimate/reading/read-beds.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { bedsOf, type Requested, type StoredBeds } from '../estimate/understood/stored.ts'
import type { FormFields } from '../http/form-fields.ts'
import { t } from '../language/catalogue.ts'
import { bedTyped, ownSizes, postedBeds } from '../requests/bed-typed.ts'
import { layersBefore, layersPosted } from './measure-layers.ts'
import { extraField, extrasPosted, morePosted, moreSaid } from './measure-more.ts'
import { keptStops, stopsPosted } from './measure-stops.ts'
import { isAsTold, readMeasured, toldBedOf } from './read-measured.ts'
import type { Sheet, SheetBed, SheetStop } from './sheet.ts'

/** The sheet as it was posted. */
export function sheetOf(fields: FormFields, { told, measured }: Pick<Requested, 'told' | 'measured'>): Sheet {
  const stops = stopsPosted(fields, measured ? [told, measured] : [told])
  return {
    measuredBy: fields.text('measuredBy'),
    extras: extrasPosted(fields),
    stops,
    beds: postedBeds(fields, MOST_BEDS_OF_STAFF).map(bed => ({
      ...sheetBed(bed, told),
      ...atStop(bed.carried('stop'), stops),
    })),
  }
}

function atStop(stop: number, stops: SheetStop[]): { stop?: number } {
  return stops.length > 0 ? { stop: Math.min(stop, stops.length - 1) } : {}
}

/** The sheet to begin with: the beds as told, sizes left open; or as they were measured before. */
export function firstSheet(requested: Requested): Sheet {
  const { told, measured } = requested
  const understood = bedsOf(requested).understood?.beds
  const from: BedTold[] =
    measured?.beds ?? told.beds.map((bed, index) => ({ ...bed, sizes: {}, toldBed: index }))
  return {
    measuredBy: measured?.beds.find(bed => !isAsTold(bed, told))?.measuredBy ?? 'tape',
    extras: (measured ?? told).extras,
    stops: ((measured ?? told).stops ?? []).map(stop => ({ ...stop, dropped: false })),
    beds: from.map(({ measuredBy: _, ...bed }, index) => ({
      ...bed,
      count: String(bed.count),
      ...lyingFields(bed.lying),
      layers: layersBefore(bed, understood?.[index]),
      toldBed: bed.toldBed ?? null,
      asTold: measured !== null && isAsTold(from[index]!, told),
      dropped: false,
    })),
  }
}

/** A bed found on site, to be filled in: as the last one on the sheet or at its stop, without sizes. */
export function blankBed(sheet: Sheet, table: RateTable, stop?: number): SheetBed {
  const last = sheet.beds.findLast(bed => bed.stop === stop) ?? sheet.beds.at(-1)
  return {
    ...(stop !== undefined && { stop }),
    toldBed: null,
    asTold: false,
    dropped: false,
    shape: 'rectangle',
    sizes: {},
    count: '1',
    planted: last?.planted || 'open',
    lying: 'bare',
    lyingDepth: '',
    finish: last?.finish || (table.finishes[0]?.slug ?? ''),
    depth: last?.depth ?? '',
    layers: last?.layers ?? [],
  }
}

/**
 * Reads the sheet; dropped beds are left out, and a bed ticked as told keeps the sizes that the homeowner gave. `doubts`
 * are what has two readings: the one that was taken, and the other.
 */
export function readSheet(
  sheet: Sheet,
  stored: StoredBeds,
  table: RateTable,
): { ok: true; measured: Told; doubts: string[] } | { ok: false; errors: Record<string, string> } {
  const { rows, measured } = measuredOf(sheet, stored.told)
  if (rows.length === 0)
    return { ok: false, errors: { '': 'Keep at least one bed, or turn the request down.' } }
  const { errors } = keptStops(sheet)
  const reading = readMeasured(measured, stored, table)
  if (reading.ok && Object.keys(errors).length === 0) return { ok: true, measured, doubts: doubtsOf(reading) }
  if (reading.ok) return { ok: false, errors }
  for (const { field, key, params } of reading.faults)
    errors[fieldOnSheet(field, rows, sheet, table)] ??= t('en', key, params)
  return { ok: false, errors }
}

/** What was read one way and could have meant another, in words. */
function doubtsOf({ echoes, instead }: ToldReading): string[] {
  return Object.entries(instead).map(([field, spellings]) => {
    const read = (echoes[field] ?? '').replace(/^[=≈] | \?$/g, '')
    return `${read} and not ${spellings.join(' or ')}`
  })
}

/** What the sheet tells: its beds without those that are dropped, each with its place on the sheet. */
export function measuredOf(
  sheet: Sheet,
  told: Told,
): { rows: { bed: SheetBed; index: number }[]; measured: Told } {
  const { kept } = keptStops(sheet)
  const placeOf = new Map([...kept.keys()].map((at, place) => [at, place]))
  const isKept = ({ dropped, stop }: SheetBed) => !dropped && (stop === undefined || placeOf.has(stop))
  const rows = sheet.beds
    .map((bed, index) => ({ bed, index }))
    .filter(({ bed }) => isKept(bed))
    .sort((a, b) => (a.bed.stop ?? 0) - (b.bed.stop ?? 0))
  const beds = rows.map(({ bed }) => ({
    ...measuredBed(bed, sheet.measuredBy, told),
    ...(bed.stop !== undefined && { stop: placeOf.get(bed.stop)! }),
  }))
  const stops = kept.size > 0 ? { stops: [...kept.values()] } : {}
  return { rows, measured: { beds, ...stops, extras: sheet.extras, postcode: told.postcode } }
}

function measuredBed(bed: SheetBed, measuredBy: string, told: Told): BedTold {
  const before = toldBedOf(bed, told)
  const asTold = bed.asTold && before !== undefined
  return {
    toldBed: before ? bed.toldBed : null,
    shape: asTold ? before.shape : bed.shape,
    sizes: asTold ? before.sizes : ownSizes(bed),
    count: bed.count,
    measuredBy: asTold ? before.measuredBy : measuredBy,
    planted: bed.planted,
    lying: bed.lyingDepth || bed.lying,
    finish: bed.finish,
    depth: bed.depth,
    ...moreSaid(bed),
    // Left out it would mean what usually lies beneath.
    layers: bed.layers,
  }
}

// Faults are numbered by the beds that were kept; the sheet's fields by all that stand on it.
function fieldOnSheet(
  field: string,
  rows: { bed: SheetBed; index: number }[],
  { extras }: Sheet,
  table: RateTable,
): string {
  const besides = /^extras\.(\d+)$/.exec(field)
  if (besides) return extraField(extras[Number(besides[1])], table)
  const found = /^beds\.(\d+)\.(.+)$/.exec(field)
  if (!found) return ''
  const { bed, index } = rows[Number(found[1])]!
  if (found[2] === 'measuredBy') return 'measuredBy'
  const own = /^extras\.(\d+)$/.exec(found[2]!)
  if (own) return `beds.${index}.${extraField(bed.extras?.[Number(own[1])], table)}`
  return `beds.${index}.${found[2] === 'lying' && bed.lyingDepth ? 'lyingDepth' : found[2]}`
}

function sheetBed(posted: FormFields, told: Told): SheetBed {
  const of = posted.text('told')
  const toldBed = /^\d{1,3}$/.test(of) && Number(of) < told.beds.length ? Number(of) : null
  return {
    ...bedTyped(posted),
    ...morePosted(posted),
    toldBed,
    asTold: toldBed !== null && posted.has('asTold'),
    dropped: posted.has('drop'),
    lyingDepth: posted.text('lyingDepth'),
    layers: layersPosted(posted),
  }
}

function lyingFields(lying: string): Pick<SheetBed, 'lying' | 'lyingDepth'> {
  const named = ['bare', 'thin', 'fair', 'thick', 'unsure'].includes(lying)
  return named ? { lying, lyingDepth: '' } : { lying: '', lyingDepth: lying }
}
