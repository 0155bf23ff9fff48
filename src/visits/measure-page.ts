import type { FastifyReply } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { shapeIcon } from '../drawing/shape-icons.ts'
import { drawSymbols, shareTile } from '../drawing/tile.ts'
import { MOST_BEDS, MOST_BEDS_OF_STAFF } from '../estimate/reading/read-beds.ts'
import { shapeNames, shapeOf, sizeFields } from '../estimate/shapes/all-shapes.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { unitSystem } from '../estimate/units/units.ts'
import { Conflict, Refusal } from '../http/errors.ts'
import type { PageExtras } from '../http/render.ts'
import { t } from '../language/catalogue.ts'
import { momentInWords } from '../language/dates-in-words.ts'
import { findFirm } from '../places/firms.ts'
import { findRateTable, requireRateTable } from '../rates/queries.ts'
import { type BedView, viewBeds } from '../requests/bed-view.ts'
import { depthInWords } from '../requests/layers-in-words.ts'
import { findPhotos } from '../requests/photos/queries.ts'
import { type PhotoView, viewPhotos } from '../requests/photos/view.ts'
import { type RequestRow, requireRequest } from '../requests/queries.ts'
import { blankBed, firstSheet } from './measure-form.ts'
import { layerOptions, layerPlaces } from './measure-layers.ts'
import { type ExtraChoices, moreChoices } from './measure-more.ts'
import { findVisitAhead } from './queries.ts'
import type { Sheet, SheetBed } from './sheet.ts'
import { SIZE_WORDS } from './size-words.ts'
import { usualDepth, type WorkedBed, type WorkedSheet, workOutSheet } from './worked-sheet.ts'

interface Choice {
  value: string
  label: string
}

type ToldBed = { view: BedView | null; typed: string } | null

export interface MeasurePage {
  number: string
  customer: string
  wanted: RequestRow
  photos: PhotoView[]
  /** What an association wants kept to. */
  rules: string
  visit: string | null
  sheet: Sheet
  /** As told, for each bed of the sheet; null for one found on site. */
  told: ToldBed[]
  shapes: (Choice & { drawing: string })[]
  /** The pictures of the shapes, which every bed shows again. */
  symbolsDrawing: string
  sizeFields: { size: string; text: string; shapes: string; unit: string; list: boolean; marks: string }[]
  finishes: Choice[]
  layings: Choice[]
  extras: ExtraChoices
  /** What can lie beneath a bed, and how many rows for it one shows. */
  layerOptions: Choice[]
  layerPlaces: typeof layerPlaces
  depthUnit: string
  lengthUnit: string
  cutOutHint: string
  /** The signs that a number keypad lacks, to be offered with a length and with a depth. */
  lengthMarks: string
  depthMarks: string
  asksSlope: boolean
  asksGate: boolean
  /** What a bed may have for itself. */
  ownExtras: ExtraChoices
  worked: WorkedSheet
  /** One more bed, to be put on the sheet without asking for it; null where the sheet is full. */
  blank: { bed: SheetBed; index: number; told: ToldBed; worked: WorkedBed } | null
  /** The stop that something was added to. */
  openStop: number | null
  /** The bed of a long sheet of which all is asked. */
  wholeBed: number | null
  /** Shown for the first time, with nothing typed on it that isn’t saved. */
  isFresh: boolean
}

/** What of it follows the typing: of a job with stops the beds of the one that is typed at, or where `near` is null all. */
export type LiveSheet = Pick<MeasurePage, 'worked' | 'told'> & { shown: boolean[] }

/**
 * The site-visit sheet: what was told of each bed, and fields for what is found.
 * @throws {Conflict} unless a visit is set, or the beds are measured and not yet quoted
 */
export async function showSheet(
  deps: Deps,
  reply: FastifyReply,
  number: string,
  again?: { sheet: Sheet; errors: Record<string, string>; stop?: number | undefined; bed?: number },
): Promise<FastifyReply> {
  const wanted = await requireRequest(deps.db, number)
  refuseStage(wanted)
  const rates = await findRateTable(deps.db, deps.now())
  if (!rates) throw new Refusal(503, 'error.not-open')
  const business = await requireBusiness(deps.db)
  const ahead = await findVisitAhead(deps.db, wanted.id)
  const sheet = again?.sheet ?? firstSheet(wanted)
  if (sheet.beds.length === 0) sheet.beds.push(blankBed(sheet, rates.body))
  const errors = again?.errors ?? {}
  const data: MeasurePage & PageExtras = {
    number,
    customer: wanted.customer_name,
    wanted,
    rules: (await findFirm(deps.db, wanted.customer_head_id))?.rules ?? '',
    photos: viewPhotos(await findPhotos(deps.db, wanted.id), `/queue/${number}`),
    visit: ahead ? momentInWords(ahead.starts_at, business.time_zone, 'en') : null,
    sheet,
    told: await toldOf(deps, wanted, sheet),
    ...choicesOf(rates.body),
    ...blankFor(sheet, rates.body),
    layerOptions: layerOptions(sheet, rates.body),
    layerPlaces,
    worked: workOutSheet(sheet, wanted, rates.body, placeOf(wanted)),
    openStop: again?.stop ?? null,
    wholeBed: again?.bed ?? null,
    isFresh: again === undefined,
    scripts: ['sheet.js'],
  }
  return reply.page('visits/measure', { ...data, errors }, Object.keys(errors).length > 0 ? 422 : 200)
}

/** What follows from the sheet as it is typed.
 * @throws {Conflict} as showSheet
 */
export async function showWorked(
  deps: Deps,
  reply: FastifyReply,
  wanted: RequestRow,
  sheet: Sheet,
  near: number | null,
): Promise<FastifyReply> {
  refuseStage(wanted)
  const rates = await findRateTable(deps.db, deps.now())
  if (!rates) throw new Refusal(503, 'error.not-open')
  return reply.page('visits/live', {
    worked: workOutSheet(sheet, wanted, rates.body, placeOf(wanted)),
    told: await toldOf(deps, wanted, sheet),
    shown: sheet.beds.map(({ stop }) => near === null || stop === near),
  })
}

/** How many beds a sheet may have. */
export function mostBeds({ stops }: Sheet): number {
  return stops.length > 0 ? MOST_BEDS_OF_STAFF : MOST_BEDS
}

function placeOf({ told, postcode }: RequestRow): string {
  return told.postcode || postcode
}

function blankFor(sheet: Sheet, table: RateTable): Pick<MeasurePage, 'blank'> {
  const most = mostBeds(sheet)
  if (sheet.beds.length >= most) return { blank: null }
  const bed = blankBed(sheet, table, sheet.stops.length > 0 ? 0 : undefined)
  const worked = { echoes: { depth: usualDepth(bed, table) }, view: null }
  return { blank: { bed, index: most, told: null, worked } }
}

function refuseStage({ stage, number }: RequestRow) {
  if (stage === 'new') throw new Conflict('quote.visit-first', { number })
  if (stage !== 'visit set' && stage !== 'measured') throw new Conflict('error.stage', { number })
}

async function toldOf(deps: Deps, wanted: RequestRow, sheet: Sheet): Promise<MeasurePage['told']> {
  if (wanted.rate_table_id === null) return sheet.beds.map(() => null)
  const table = await requireRateTable(deps.db, wanted.rate_table_id)
  const views = viewBeds(wanted, table.body, 'en', 'told')
  return sheet.beds.map(({ toldBed }) => {
    const bed = toldBed === null ? undefined : wanted.told.beds[toldBed]
    return bed
      ? { view: views[toldBed!] ?? null, typed: Object.values(bed.sizes).filter(Boolean).join(' × ') }
      : null
  })
}

function choicesOf(table: RateTable) {
  const system = unitSystem(table.units)
  const shapes = shapeNames().map(value => ({
    value,
    label: t('en', `beds.shape-${value}`),
    ...shareTile(shapeIcon(shapeOf(value).icon), `shape-tile-${value}`),
  }))
  const layer = (name: 'thin' | 'fair' | 'thick') => depthInWords(table.lying[name].m, table, 'en')
  return {
    shapes,
    symbolsDrawing: drawSymbols(shapes.map(({ symbol }) => symbol)),
    sizeFields: sizesOf(system.name),
    finishes: table.finishes.map(({ slug, name, soldOut }) => ({
      value: slug,
      label: soldOut ? `${name.en} (sold out)` : name.en,
    })),
    layings: [
      { value: 'bare', label: 'None' },
      { value: 'thin', label: `Thin, ${layer('thin')}` },
      { value: 'fair', label: `Medium, ${layer('fair')}` },
      { value: 'thick', label: `Thick, ${layer('thick')}` },
      { value: 'unsure', label: 'Not sure' },
      { value: '', label: 'A depth' },
    ],
    depthUnit: system.depth,
    lengthMarks: LENGTH_MARKS[system.name],
    depthMarks: DEPTH_MARKS[system.name],
    ...moreChoices(table),
  }
}

const LENGTH_MARKS = { us: `'"½`, metric: '' }
const DEPTH_MARKS = { us: '½', metric: '' }

const UNITS = {
  length: { us: 'ft', metric: 'm' },
  lengths: { us: 'ft', metric: 'm' },
  area: { us: 'ft²', metric: 'm²' },
  volume: { us: 'ft³', metric: 'm³' },
}

function sizesOf(units: RateTable['units']): MeasurePage['sizeFields'] {
  return sizeFields(shapeNames()).map(({ name, reads, shapes }) => ({
    size: name,
    text: SIZE_WORDS[name]!,
    shapes: shapes.join(' '),
    unit: UNITS[reads][units],
    list: reads === 'lengths',
    marks: reads === 'length' || reads === 'lengths' ? LENGTH_MARKS[units] : '',
  }))
}
