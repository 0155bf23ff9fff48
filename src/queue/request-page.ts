import type { FastifyReply } from 'fastify'
import type { AddedLine } from '../billing/compose-bill.ts'
import { findAccepted } from '../bookings/accepted-text.ts'
import { TURNED_DOWN_FOR } from '../bookings/cannot-do.ts'
import { findBooking, isDeclined } from '../bookings/queries.ts'
import { type Business, requireBusiness } from '../business/queries.ts'
import { type ClosingView, viewClosing } from '../closing/view.ts'
import { startInWords } from '../days/start.ts'
import type { Step } from '../db/schema/stages.ts'
import type { Deps } from '../deps.ts'
import { bedsOf } from '../estimate/understood/stored.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { seesCosts } from '../http/roles.ts'
import { requireAccount } from '../http/signed-in.ts'
import { momentInWords, shortDay } from '../language/dates-in-words.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { mapAddress, plainMailto, telephone } from '../lib/contact-links.ts'
import { dayOf } from '../lib/dates.ts'
import { type FailedMessage, findFailed } from '../outbox/failed.ts'
import { type PaymentsView, viewPayments } from '../payments/view.ts'
import { findPeople, type PeopleOfRequest } from '../places/of-request.ts'
import { findEarlierQuotes, isWithdrawn } from '../quotes/queries.ts'
import { soldOutWarnings } from '../quotes/sold-out.ts'
import { type QuoteView, viewQuote } from '../quotes/view.ts'
import { findRateTable, requireRateTable } from '../rates/queries.ts'
import { type BedView, viewBeds } from '../requests/bed-view.ts'
import { findHistory } from '../requests/history.ts'
import { findLinkPath } from '../requests/links.ts'
import { findPhotos } from '../requests/photos/queries.ts'
import { type PhotoView, viewPhotos } from '../requests/photos/view.ts'
import { type RequestRow, requireRequest } from '../requests/queries.ts'
import { FOLLOWING } from '../requests/stage.ts'
import { findTakenUp, OVER } from '../requests/take-up-again.ts'
import { compareBeds, type ToldAndMeasured } from '../visits/told-and-measured.ts'
import { type AsideView, viewAside } from './aside-view.ts'
import { findChangeAsked } from './ask-change.ts'
import { type AskedView, daysOpen, viewAsked } from './asked-view.ts'
import { type BillingOfRequest, viewBilling } from './billing-view.ts'
import { AGAIN } from './called.ts'
import { type HistoryView, historyInWords, TURNED_DOWN } from './history-words.ts'
import { type MoveView, viewMove } from './move-view.ts'
import { type NewsView, newsOf } from './news-view.ts'
import { rangeShown } from './range-shown.ts'
import { callsInWords, linkInWords } from './row-notes.ts'
import { nextInWords, stageInWords } from './row-words.ts'
import { findRows, type QueueRow } from './rows.ts'
import { sentWithoutInWords } from './sent-without.ts'
import { shownStep } from './steps.ts'
import { type VisitView, viewVisit } from './visit-view.ts'
import { viewWeeks, type WeekView } from './week-view.ts'

export interface RequestPage extends BillingOfRequest {
  wanted: RequestRow
  step: Step | null
  /** 'Ended', when there is no next step: how and since when. */
  ended: string | null
  came: string
  due: string
  phone: { words: string; address: string } | null
  email: string | null
  map: string
  /** What was said of the place and beyond the beds, as term and text. */
  facts: [term: string, text: string][]
  news: NewsView | null
  aside: AsideView
  /** Of a request that is over: the number of the one that took it up again, and whether it may be taken back. */
  over: { again: string | null; mayTakeBack: boolean } | null
  called: string
  againChoices: Choice[]
  linkState: string
  turnDownReasons: Choice[]
  visit: VisitView
  range: { words: string; drawing: string } | null
  beds: (BedView | null)[]
  compared: ToldAndMeasured[]
  /** What of its finishes is sold out at present, while there is work ahead. */
  soldOut: string[]
  quote: QuoteView | null
  earlier: { revision: number; total: string; made: string }[]
  linkPath: string | null
  /** A change that somebody of the staff asked for and no quote answers yet. */
  changeAsked: { words: string; by: string } | null
  /** Of a booked job: that the customer declined the change, and that it was taken back. */
  changeDeclined: boolean
  changeWithdrawn: boolean
  hasAccepted: boolean
  workDay: string | null
  /** The day that is asked for, while it is held. */
  asked: AskedView | null
  /** The week that they chose, while its day isn’t said. */
  week: WeekView | null
  payments: PaymentsView | null
  move: MoveView
  /** How the work went; null while there is none. */
  closing: ClosingView | null
  /** The days that the owner may book on the phone, when the quote was accepted without one. */
  daysToOffer: Choice[]
  /** Messages to the homeowner that couldn’t be sent. */
  failed: FailedMessage[]
  history: HistoryView[]
  photos: PhotoView[]
  /** How it was sent, where that was without beds. */
  sentWithout: string | null
  people: PeopleOfRequest
  canCannotDo: boolean
  values: Typed
}

type Choice = Record<'value' | 'label', string>

export interface TypedAgain {
  errors?: Errors
  typed?: Typed
  /** Lines of the owner’s own on the bill that is looked at. */
  added?: AddedLine[]
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
  const { typed = {}, errors, added = [] } = again
  const page = await requestPage(deps, business, wanted, added, seesCosts(requireAccount(reply.request)))
  return reply.page('queue/show', { ...page, values: typed, errors: errors ?? {} }, errors ? 422 : 200)
}

async function requestPage(
  deps: Deps,
  business: Business,
  wanted: RequestRow,
  added: readonly AddedLine[],
  hasCosts: boolean,
): Promise<Omit<RequestPage, 'values'>> {
  const { db } = deps
  const quote = await viewQuote(db, wanted.id, business, hasCosts || business.show_rates)
  const [row] = (await findRows(db, [wanted.id])) as [QueueRow]
  const step = wanted.junk_at ? null : shownStep(row, deps.now())
  const history = await findHistory(db, wanted.id)
  const earlier = quote ? await findEarlierQuotes(db, wanted.id, quote.revision) : []
  const booking = await findBooking(db, wanted.id)
  const range = rangeShown(wanted, business.currency)
  const billing = await viewBilling(deps, business, wanted, added)
  return {
    wanted,
    step,
    ended: step ? null : endedInWords(row, business),
    due: step ? nextInWords(row, business, deps.now()) : '',
    phone: telephone(wanted.phone),
    email: plainMailto(wanted.email),
    map: mapAddress(wanted),
    facts: factsOf(wanted),
    news: newsOf(wanted, history, business),
    aside: await viewAside(deps, business, wanted),
    over: await overOf(deps, wanted),
    called: sentence(callsInWords(wanted.calls)),
    againChoices: Object.entries(AGAIN).map(([value, label]) => ({ value, label: label.toLowerCase() })),
    linkState: linkInWords(row, business.time_zone),
    turnDownReasons: TURNED_DOWN_FOR.map(value => ({ value, label: sentence(TURNED_DOWN[value]!) })),
    came: momentInWords(wanted.arrived_at, business.time_zone, 'en'),
    visit: await viewVisit(deps, business, wanted),
    range,
    ...(await bedsShown(deps, wanted, step !== null)),
    quote,
    earlier: earlier.map(one => ({
      revision: one.revision,
      total: moneyInWords(one.total, one.currency, 'en'),
      made: shortDay(one.made_at, business.time_zone),
    })),
    linkPath: (await findLinkPath(db, deps.secretKey, 'booking', wanted.id)) ?? null,
    changeAsked: (await findChangeAsked(db, wanted.id)) ?? null,
    changeDeclined: quote !== null && (await isDeclined(db, quote.id)),
    changeWithdrawn: quote !== null && (await isWithdrawn(db, quote.id)),
    hasAccepted: (await findAccepted(db, wanted.id)).length > 0,
    workDay: booking ? booking.days.map(share => startInWords(share, 'en')).join(', ') : null,
    payments: billing.money ? null : await viewPayments(deps, business, wanted, booking?.begins),
    ...billing,
    asked: await viewAsked(deps, business, wanted, booking),
    week: booking?.say_by ? ((await viewWeeks(deps, business, 'en', wanted.id))[0] ?? null) : null,
    move: await viewMove(deps, business, wanted),
    closing: (await viewClosing(db, business, wanted, deps.now(), 'en')) ?? null,
    daysToOffer: wanted.stage === 'quoted' && quote?.accepted_at ? await daysOpen(deps, business, quote) : [],
    failed: await findFailed(db, wanted.id),
    history: historyInWords([...history].reverse(), wanted.customer_name, business),
    canCannotDo: !wanted.junk_at && FOLLOWING[wanted.stage].includes("can't do"),
    photos: viewPhotos(await findPhotos(db, wanted.id), `/queue/${wanted.number}`),
    sentWithout: sentWithoutInWords(wanted),
    people: await findPeople(db, wanted, dayOf(deps.now(), business.time_zone)),
  }
}

function endedInWords(row: QueueRow, { time_zone }: Business): string {
  if (row.junk_at) return `junk since ${shortDay(row.junk_at, time_zone)}`
  return `${stageInWords(row.stage)} since ${shortDay(row.stage_at, time_zone)}`
}

function sentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1)
}

function factsOf(wanted: RequestRow): RequestPage['facts'] {
  const unconfirmed = wanted.email_confirmed_at ? '' : ' (not confirmed)'
  const facts: RequestPage['facts'] = [
    ['Best times', wanted.preferred_times],
    ['Gate', wanted.gate],
    ['Dog', wanted.dog],
    ['Note', wanted.note],
    ['Language', wanted.customer_language === 'es' ? 'Spanish' : ''],
    ['Email', wanted.email && wanted.email + unconfirmed],
    ['Messages', wanted.is_quiet ? 'Only about booked work' : ''],
  ]
  return facts.filter(([, text]) => text !== '')
}

async function overOf({ db }: Deps, { id, stage }: RequestRow): Promise<RequestPage['over']> {
  if (!OVER.includes(stage)) return null
  return { again: (await findTakenUp(db, id)) ?? null, mayTakeBack: stage === "can't do" }
}

async function bedsShown(deps: Deps, wanted: RequestRow, isOpen: boolean) {
  const newest = await findRateTable(deps.db, deps.now())
  const table = wanted.rate_table_id === null ? newest : await requireRateTable(deps.db, wanted.rate_table_id)
  if (!newest || !table) return { beds: [], compared: [], soldOut: [] }
  const soldOut = isOpen ? soldOutWarnings(bedsOf(wanted).told, newest.body) : []
  const told = viewBeds(wanted, table.body, 'en', 'told')
  if (!wanted.measured && !wanted.agreed) return { beds: told, compared: [], soldOut }
  const measured = viewBeds(bedsOf(wanted), newest.body, 'en', 'measured')
  if (told.length === 0 || !wanted.measured) return { beds: measured, compared: [], soldOut }
  return { beds: measured, compared: compareBeds(told, measured, wanted.measured), soldOut }
}
