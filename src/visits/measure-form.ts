import type { Told } from '../estimate/job/bed.ts'
import { MOST_BEDS, readTold } from '../estimate/reading/read-beds.ts'
import { isShapeName, shapeOf } from '../estimate/shapes/all-shapes.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { type Group, groupOf, textOf } from '../http/nested-fields.ts'
import { t } from '../language/catalogue.ts'
import { extraField, type MoreFields, moreBefore, moreOf, moreTold } from './measure-more.ts'
import type { Measured, MeasuredBed } from './measured.ts'

/** One bed of the sheet as typed. `told` is the index of the told bed that it is, null for one found on site. */
export interface SheetBed extends MoreFields {
  told: number | null
  asTold: boolean
  dropped: boolean
  shape: string
  sizes: Record<string, string>
  count: string
  planted: string
  /** One of the layers, or '' where `lyingDepth` says it. */
  lying: string
  lyingDepth: string
  finish: string
  depth: string
}

export interface Sheet {
  measuredBy: string
  extras: string[]
  beds: SheetBed[]
}

export type SheetReading = { ok: true; measured: Measured } | { ok: false; errors: Record<string, string> }

/** The sheet as it was posted. */
export function sheetOf(form: Group, told: Told): Sheet {
  const beds = Array.isArray(form.beds) ? form.beds.slice(0, MOST_BEDS) : []
  return {
    measuredBy: textOf(form.measuredBy),
    extras: Array.isArray(form.extras) ? form.extras.filter(slug => typeof slug === 'string') : [],
    beds: beds.map(bed => sheetBed(typeof bed === 'object' && !Array.isArray(bed) ? bed : {}, told)),
  }
}

/** The sheet to begin with: the beds as told, sizes left open; or as they were measured before. */
export function firstSheet(told: Told, measured: Measured | null): Sheet {
  const from: MeasuredBed[] =
    measured?.beds ?? told.beds.map((bed, index) => ({ ...bed, sizes: {}, toldBed: index }))
  return {
    measuredBy: measured?.beds.find(bed => !isAsTold(bed, told))?.measuredBy ?? 'tape',
    extras: (measured ?? told).extras,
    beds: from.map(bed => ({
      told: bed.toldBed,
      asTold: measured !== null && isAsTold(bed, told),
      dropped: false,
      shape: bed.shape,
      sizes: bed.sizes,
      count: String(bed.count),
      planted: bed.planted,
      ...lyingFields(bed.lying),
      finish: bed.finish,
      depth: bed.depth,
      ...moreBefore(bed),
    })),
  }
}

/** A bed found on site, to be filled in: as the last one on the sheet, without sizes. */
export function blankBed(sheet: Sheet, table: RateTable): SheetBed {
  const last = sheet.beds.at(-1)
  return {
    told: null,
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
    ...moreBefore({}),
  }
}

/** Reads the sheet; dropped beds are left out, and a bed ticked as told keeps the sizes that the homeowner gave. */
export function readSheet(sheet: Sheet, told: Told, table: RateTable): SheetReading {
  const rows = sheet.beds.flatMap((bed, index) => (bed.dropped ? [] : [{ bed, index }]))
  if (rows.length === 0)
    return { ok: false, errors: { '': 'Keep at least one bed, or say that it can’t be done.' } }
  const measured: Measured = {
    beds: rows.map(({ bed }) => measuredBed(bed, sheet.measuredBy, told)),
    extras: sheet.extras,
    postcode: told.postcode,
  }
  const reading = readTold(measured, table)
  if (reading.ok) return { ok: true, measured }
  const errors: Record<string, string> = {}
  for (const { field, key, params } of reading.faults)
    errors[fieldOnSheet(field, rows, sheet, table)] ??= t('en', key, params)
  return { ok: false, errors }
}

function measuredBed(bed: SheetBed, measuredBy: string, told: Told): MeasuredBed {
  const before = bed.told === null ? undefined : told.beds[bed.told]
  const asTold = bed.asTold && before !== undefined
  const shape = asTold ? before.shape : bed.shape
  return {
    toldBed: before ? bed.told : null,
    shape,
    sizes: asTold ? before.sizes : sizesOf(shape, bed.sizes),
    count: bed.count,
    measuredBy: asTold ? before.measuredBy : measuredBy,
    planted: bed.planted,
    lying: bed.lyingDepth || bed.lying,
    finish: bed.finish,
    depth: bed.depth,
    ...moreTold(bed),
  }
}

function sizesOf(shape: string, typed: Record<string, string>): Record<string, string> {
  if (!isShapeName(shape)) return {}
  const names = shapeOf(shape).sizes.map(({ name }) => name)
  return Object.fromEntries(names.map(name => [name, typed[name] ?? '']))
}

// Faults are numbered by the beds that were kept; the sheet's fields by all that stand on it.
function fieldOnSheet(
  field: string,
  rows: { bed: SheetBed; index: number }[],
  { extras }: Sheet,
  table: RateTable,
): string {
  const besides = /^extras\.(\d+)$/.exec(field)
  if (besides) return `extra-${extras[Number(besides[1])]}`
  const found = /^beds\.(\d+)\.(.+)$/.exec(field)
  if (!found) return ''
  const { bed, index } = rows[Number(found[1])]!
  if (found[2] === 'measuredBy') return 'measuredBy'
  const own = /^extras\.(\d+)$/.exec(found[2]!)
  if (own) return `beds.${index}.${extraField(bed.extras[Number(own[1])], table)}`
  return `beds.${index}.${found[2] === 'lying' && bed.lyingDepth ? 'lyingDepth' : found[2]}`
}

function sheetBed(typed: Group, told: Told): SheetBed {
  const of = textOf(typed.told)
  const index = /^\d{1,2}$/.test(of) && Number(of) < told.beds.length ? Number(of) : null
  const sizes = groupOf(typed.sizes)

  return {
    told: index,
    asTold: index !== null && typed.asTold !== undefined,
    dropped: typed.drop !== undefined,
    shape: textOf(typed.shape),
    sizes: Object.fromEntries(Object.entries(sizes).map(([name, size]) => [name, textOf(size)])),
    count: textOf(typed.count),
    planted: textOf(typed.planted),
    lying: textOf(typed.lying),
    lyingDepth: textOf(typed.lyingDepth).trim(),
    finish: textOf(typed.finish),
    depth: textOf(typed.depth),
    ...moreOf(typed),
  }
}

function isAsTold(bed: MeasuredBed, told: Told): boolean {
  const before = bed.toldBed === null ? undefined : told.beds[bed.toldBed]
  return (
    before !== undefined &&
    before.shape === bed.shape &&
    same(before.sizes, bed.sizes) &&
    before.measuredBy === bed.measuredBy
  )
}

function same(one: Record<string, string>, other: Record<string, string>): boolean {
  return Object.keys(one).every(name => one[name] === other[name])
}

function lyingFields(lying: string): Pick<SheetBed, 'lying' | 'lyingDepth'> {
  const named = ['bare', 'thin', 'fair', 'thick', 'unsure'].includes(lying)
  return named ? { lying, lyingDepth: '' } : { lying: '', lyingDepth: lying }
}
