import type { FastifyReply } from 'fastify'
import { findBooking } from '../bookings/queries.ts'
import { type Business, requireBusiness } from '../business/queries.ts'
import { daysToOffer } from '../days/days-to-offer.ts'
import type { Deps } from '../deps.ts'
import { drawRange } from '../drawing/range-bar.ts'
import { bedsOf } from '../estimate/understood/stored.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { dayInWords, momentInWords, shortDay } from '../language/dates-in-words.ts'
import { moneyInWords, rangeInWords } from '../language/money-in-words.ts'
import { type FailedMessage, findFailed } from '../outbox/failed.ts'
import { findPeople, type PeopleOfRequest } from '../places/of-request.ts'
import { findEarlierQuotes } from '../quotes/queries.ts'
import { soldOutWarnings } from '../quotes/sold-out.ts'
import { type QuoteView, viewQuote } from '../quotes/view.ts'
import { findRateTable, requireRateTable } from '../rates/queries.ts'
import { type BedView, viewBeds } from '../requests/bed-view.ts'
import { findHistory } from '../requests/history.ts'
import { findLinkPath } from '../requests/links.ts'
import { type RequestRow, requireRequest } from '../requests/queries.ts'
import { FOLLOWING } from '../requests/stage.ts'
import { findVisitAhead, findVisitDone } from '../visits/queries.ts'
import { compareBeds, type ToldAndMeasured } from '../visits/told-and-measured.ts'
import { type HistoryView, historyInWords } from './history-words.ts'
import { type Step, stepOf } from './next-step.ts'
import { stageInWords } from './row-words.ts'

export interface RequestPage {
  wanted: RequestRow
  step: Step | null
  /** 'Ended', when there is no next step: how and since when. */
  ended: string | null
  came: string
  visit: { ahead: string | null; done: string | null }
  range: { words: string; drawing: string } | null
  beds: (BedView | null)[]
  compared: ToldAndMeasured[]
  /** What of its finishes is sold out at present, while there is work ahead. */
  soldOut: string[]
  quote: QuoteView | null
  earlier: { revision: number; total: string; made: string }[]
  linkStands: boolean
  workDay: string | null
  /** The days that the owner may book on the phone, when the quote was accepted without one. */
  daysToOffer: { value: string; label: string }[]
  /** Messages to the homeowner that couldn’t be sent. */
  failed: FailedMessage[]
  history: HistoryView[]
  people: PeopleOfRequest
  canCannotDo: boolean
  values: Typed
}

export interface TypedAgain {
  errors?: Errors
  typed?: Typed
}

/** One request with all that is known of it; what was typed and refused is shown again with its faults. */
export async function showRequest(
  deps: Deps,
  reply: FastifyReply,
  number: string,
  again: TypedAgain = {},
): Promise<FastifyReply> {
  const business = await requireBusiness(deps.db)
  const wanted = await requireRequest(deps.db, number)
  const page = await requestPage(deps, business, wanted)
  const data = { ...page, values: again.typed ?? {}, errors: again.errors ?? {} }
  return reply.page('queue/show', data, again.errors ? 422 : 200)
}

async function requestPage(
  deps: Deps,
  business: Business,
  wanted: RequestRow,
): Promise<Omit<RequestPage, 'values'>> {
  const { db } = deps
  const quote = await viewQuote(db, wanted.id, business)
  const step = stepOf({ ...wanted, accepted_at: quote?.accepted_at ?? null })
  const history = await findHistory(db, wanted.id)
  const earlier = quote ? await findEarlierQuotes(db, wanted.id, quote.revision) : []
  const booking = await findBooking(db, wanted.id)
  const range = rangeShown(wanted, business.currency)
  return {
    wanted,
    step,
    ended: step
      ? null
      : `${stageInWords(wanted.stage)} since ${shortDay(wanted.stage_at, business.time_zone)}`,
    came: momentInWords(wanted.arrived_at, business.time_zone, 'en'),
    visit: await visitInWords(deps, business, wanted.id),
    range,
    ...(await bedsShown(deps, wanted, step !== null)),
    quote,
    earlier: earlier.map(one => ({
      revision: one.revision,
      total: moneyInWords(one.total, one.currency, 'en'),
      made: shortDay(one.made_at, business.time_zone),
    })),
    linkStands: (await findLinkPath(db, deps.secretKey, 'booking', wanted.id)) !== undefined,
    workDay: booking ? booking.days.map(({ day }) => dayInWords(day, 'en')).join(', ') : null,
    daysToOffer:
      wanted.stage === 'quoted' && quote?.accepted_at
        ? await daysToOffer(deps, business, quote.crew_hours)
        : [],
    failed: await findFailed(db, wanted.id),
    history: historyInWords(history, wanted.customer_name, business),
    people: await findPeople(db, wanted),
    canCannotDo: FOLLOWING[wanted.stage].includes("can't do"),
  }
}

async function visitInWords(deps: Deps, business: Business, id: number): Promise<RequestPage['visit']> {
  const ahead = await findVisitAhead(deps.db, id)
  const done = await findVisitDone(deps.db, id)
  return {
    ahead: ahead ? momentInWords(ahead.starts_at, business.time_zone, 'en') : null,
    done: done?.done_at ? momentInWords(done.done_at, business.time_zone, 'en') : null,
  }
}

async function bedsShown(deps: Deps, wanted: RequestRow, isOpen: boolean) {
  const newest = await findRateTable(deps.db, deps.now())
  const table = wanted.rate_table_id === null ? newest : await requireRateTable(deps.db, wanted.rate_table_id)
  if (!newest || !table) return { beds: [], compared: [], soldOut: [] }
  const soldOut = isOpen ? soldOutWarnings(bedsOf(wanted).told, newest.body) : []
  const told = viewBeds(wanted, table.body, 'en', 'told')
  if (!wanted.measured) return { beds: told, compared: [], soldOut }
  const measured = viewBeds(bedsOf(wanted), newest.body, 'en', 'measured')
  return { beds: measured, compared: compareBeds(told, measured, wanted.measured), soldOut }
}

function rangeShown({ low, likely, high }: RequestRow, currency: string): RequestPage['range'] {
  if (low === null || likely === null || high === null) return null
  const words = rangeInWords(low, high, currency)
  const inWords = (amount: string) => moneyInWords(amount, currency, 'en', { whole: true })
  const labels = { low: inWords(low), likely: inWords(likely), high: inWords(high) }
  const drawing = drawRange({
    low: Number(low),
    likely: Number(likely),
    high: Number(high),
    labels,
    title: `${words}, most likely ${labels.likely}`,
    id: 'range',
  })
  return { words, drawing }
}
