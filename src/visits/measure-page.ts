import type { FastifyReply } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { MOST_BEDS } from '../estimate/reading/read-beds.ts'
import { shapeNames, sizeFields } from '../estimate/shapes/all-shapes.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { unitSystem } from '../estimate/units/units.ts'
import { Conflict, Refusal } from '../http/errors.ts'
import { t } from '../language/catalogue.ts'
import { momentInWords } from '../language/dates-in-words.ts'
import { findRateTable, requireRateTable } from '../rates/queries.ts'
import { type BedView, depthInWords, viewBeds } from '../requests/bed-view.ts'
import { type RequestRow, requireRequest } from '../requests/queries.ts'
import { firstSheet, type Sheet, type SheetBed } from './measure-form.ts'
import { moreChoices } from './measure-more.ts'
import { findVisitAhead } from './queries.ts'
import { SIZE_WORDS } from './size-words.ts'

interface Choice {
  value: string
  label: string
}

export interface MeasurePage {
  number: string
  customer: string
  wanted: RequestRow
  visit: string | null
  sheet: Sheet
  /** As told, for each bed of the sheet; null for one found on site. */
  told: ({ view: BedView | null; typed: string } | null)[]
  usualDepths: string[]
  shapes: Choice[]
  sizeFields: { size: string; text: string; shapes: string; unit: string; list: boolean }[]
  finishes: Choice[]
  layings: Choice[]
  extras: { slug: string; text: string }[]
  depthUnit: string
  lengthUnit: string
  cutOutHint: string
  /** Of no group, then by group: what a bed may have for itself. */
  ownExtras: { slug: string; text: string }[]
  groups: { group: string; text: string; options: Choice[] }[]
  mayAdd: boolean
}

/**
 * The site-visit sheet: what was told of each bed, and fields for what is found.
 * @throws {Conflict} unless a visit is set, or the beds are measured and not yet quoted
 */
export async function showSheet(
  deps: Deps,
  reply: FastifyReply,
  number: string,
  again?: { sheet: Sheet; errors: Record<string, string> },
): Promise<FastifyReply> {
  const wanted = await requireRequest(deps.db, number)
  refuseStage(wanted)
  const rates = await findRateTable(deps.db, deps.now())
  if (!rates) throw new Refusal(503, 'error.not-open')
  const business = await requireBusiness(deps.db)
  const ahead = await findVisitAhead(deps.db, wanted.id)
  const sheet = again?.sheet ?? firstSheet(wanted.told, wanted.measured)
  const errors = again?.errors ?? {}
  const data: MeasurePage = {
    number,
    customer: wanted.customer_name,
    wanted,
    visit: ahead ? momentInWords(ahead.starts_at, business.time_zone, 'en') : null,
    sheet,
    told: await toldOf(deps, wanted, sheet),
    usualDepths: sheet.beds.map(bed => usualDepth(bed, rates.body)),
    ...choicesOf(rates.body),
    mayAdd: sheet.beds.length < MOST_BEDS,
  }
  return reply.page('visits/measure', { ...data, errors }, Object.keys(errors).length > 0 ? 422 : 200)
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

function usualDepth(bed: SheetBed, table: RateTable): string {
  const finish = table.finishes.find(one => one.slug === bed.finish) ?? table.finishes[0]
  return finish ? depthInWords(finish.depth.usual, table, 'en') : ''
}

function choicesOf(table: RateTable) {
  const system = unitSystem(table.units)
  const layer = (name: 'thin' | 'fair' | 'thick') => depthInWords(table.lying[name].m, table, 'en')
  return {
    shapes: shapeNames().map(value => ({ value, label: t('en', `beds.shape-${value}`) })),
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
    extras: table.extras.map(({ slug, name }) => ({ slug, text: name.en })),
    depthUnit: system.depth,
    ...moreChoices(table),
  }
}

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
  }))
}
