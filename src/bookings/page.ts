import type { Business } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { t } from '../language/catalogue.ts'
import { dayInWords } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { dayOf } from '../lib/dates.ts'
import { findPapers, type Paper } from '../papers/queries.ts'
import { findHeld } from '../payments/queries.ts'
import { depositInWords, depositStanding, isDepositFirst } from '../payments/standing.ts'
import { findFirmOfRequest, findOrderNumber } from '../places/firms.ts'
import { conditionsInWords } from '../quotes/conditions.ts'
import { differenceOf } from '../quotes/difference.ts'
import { lineName, lineQuantity, taxNote, withRate } from '../quotes/line-name.ts'
import { findAcceptedQuote, findNewestQuote, type QuoteWithLines } from '../quotes/queries.ts'
import { findSharesOf, sortByStop } from '../quotes/stop-shares.ts'
import { requireVersion } from '../rates/standing.ts'
import { viewBeds } from '../requests/bed-view.ts'
import { findByToken } from '../requests/links.ts'
import { isOver } from './day-asked.ts'
import { findBooking, isDeclined, requireBookingRequest } from './queries.ts'

type RequestRow = Awaited<ReturnType<typeof requireBookingRequest>>
type BookingRow = Awaited<ReturnType<typeof findBooking>>

/** How a booking link stands: to be accepted, a change to booked work to be accepted, accepted without a day, a day asked for, a week chosen, booked, or over for one of three reasons. */
export type BookingState =
  | 'open'
  | 'change'
  | 'accepted'
  | 'asked'
  | 'week'
  | 'booked'
  | 'not taken'
  | 'lapsed'
  | 'closed'

/** Everything behind a booking link. */
export interface OpenedLink {
  path: string
  business: Business
  /** By the link that reads and can do nothing. */
  onlyReads: boolean
  request: RequestRow
  quote: QuoteWithLines
  /** What the work goes by, where a newer quote waits for an answer. */
  acceptedBefore: QuoteWithLines | undefined
  booking: BookingRow
  state: BookingState
  /** Whether no day can be chosen before the deposit is here. */
  depositFirst: boolean
  /** Whether the customer is a firm that needs a number of its own for the order. */
  needsOrder: boolean
  /** The one that is known already. */
  orderNumber: string
  /** What the association wants kept to. */
  rules: string
  daysToPay: number | null
  /** What they asked to read with the price. */
  papers: Paper[]
}

/**
 * Opens a booking link.
 * @throws {NotFound} when the token is unknown, ended or revoked, all alike
 */
export async function openBookingLink(
  deps: Deps,
  token: string,
  purpose: 'booking' | 'reading' = 'booking',
): Promise<OpenedLink> {
  const id = await findByToken(deps.db, purpose, token, deps.now())
  const onlyReads = purpose === 'reading'
  return openPrice(deps, id, `${onlyReads ? '/p' : '/b'}/${encodeURIComponent(token)}`, onlyReads)
}

/**
 * The same of a request that is known already.
 * @throws {NotFound} when there is none, or no price of it
 */
export async function openPrice(
  deps: Deps,
  id: number | undefined,
  path: string,
  onlyReads: boolean,
): Promise<OpenedLink> {
  const now = deps.now()
  const { business } = await deps.standing.read()
  const newest = id && (await findNewestQuote(deps.db, id))
  if (!id || !business || !newest) throw new NotFound()
  const request = await requireBookingRequest(deps.db, id)
  const booking = await findBooking(deps.db, id)
  const standing = newest.accepted_at ? undefined : await findAcceptedQuote(deps.db, id)
  const past = newest.holds_until < dayOf(now, business.time_zone)
  // A change that is declined or past its day leaves the work as it was accepted last.
  const isOpenChange = standing && !past && !(await isDeclined(deps.db, newest.id))
  const quote = booking && standing && !isOpenChange ? standing : newest
  const acceptedBefore = quote === newest ? standing : undefined
  const state = stateOf(request, quote, booking, past, now)
  const firm = await findFirmOfRequest(deps.db, id)
  return {
    ...{ path, onlyReads, business, request, quote, acceptedBefore, booking, state },
    depositFirst: await isDepositFirst(deps.db, id, quote, business),
    needsOrder: firm?.needs_order ?? false,
    orderNumber: firm && !onlyReads ? await findOrderNumber(deps.db, id) : '',
    rules: firm?.rules ?? '',
    daysToPay: firm?.days_to_pay ?? null,
    papers: firm && !onlyReads ? await papersOf(deps, firm.paper_ids) : [],
  }
}

async function papersOf(deps: Deps, ids: number[]): Promise<Paper[]> {
  return (await findPapers(deps.db)).filter(({ id }) => ids.includes(id))
}

function stateOf(
  request: RequestRow,
  quote: QuoteWithLines,
  booking: BookingRow,
  past: boolean,
  now: Temporal.Instant,
): BookingState {
  if (booking?.held_until) return isOver(booking, now) ? 'accepted' : 'asked'
  if (booking?.say_by) return 'week'
  if (booking) return quote.accepted_at ? 'booked' : 'change'
  if (request.stage === 'not taken' || request.stage === 'lapsed') return request.stage
  if (request.stage !== 'quoted') return 'closed'
  if (quote.accepted_at) return 'accepted'
  return past ? 'lapsed' : 'open'
}

/** The price in words, and its lines. */
export async function viewPrice(deps: Deps, quote: QuoteWithLines, language: Language) {
  const { business } = await deps.standing.read()
  const { body: table } = await requireVersion(deps, quote.rate_table_id)
  const money = (amount: string) => moneyInWords(amount, quote.currency, language)
  const lines = quote.lines.map(line => ({
    position: line.position,
    label: lineName(line, table, language),
    note: lineQuantity(withRate(line, business?.show_rates), table, language),
    amount: money(line.amount),
  }))
  const shares = await findSharesOf(deps.db, quote, table)
  return {
    total: money(quote.total),
    taxNote:
      [taxNote(quote, table, language), estimateNote(quote, language)].filter(Boolean).join(' ') || null,
    lines,
    byStop: sortByStop(quote.job, lines, shares, quote.currency, language),
    why: quote.why?.[language] ?? '',
    holdsUntil: dayInWords(quote.holds_until, language, true),
  }
}

// Tax is that of the day of the bill.
function estimateNote({ tax, terms }: QuoteWithLines, language: Language): string {
  return tax === null || terms.exempt !== '' ? '' : t(language, 'bill.estimate')
}

export type PriceView = Awaited<ReturnType<typeof viewPrice>>

/** What a quote changes of the one accepted before it; null where there is none. */
export async function viewDifference(deps: Deps, link: OpenedLink, language: Language) {
  const { acceptedBefore: before, quote } = link
  if (!before) return null
  const [old, now] = [
    await requireVersion(deps, before.rate_table_id),
    await requireVersion(deps, quote.rate_table_id),
  ]
  return differenceOf(before, quote, { before: old.body, now: now.body }, language)
}

/** The beds that the price is for. */
export async function viewQuotedBeds(deps: Deps, quote: QuoteWithLines, language: Language) {
  const { body: table } = await requireVersion(deps, quote.rate_table_id)
  return viewBeds({ told: quote.job, understood: quote.understood }, table, language)
}

/** What a price asks for before the work, and how its deposit stands once it is accepted, a line each. */
export async function viewConditions(deps: Deps, link: OpenedLink, language: Language): Promise<string[]> {
  const { quote, booking, business, request } = link
  const held = await findHeld(deps.db, request.id)
  const standing = depositStanding(quote, held, booking?.begins, business, deps.now())
  const stands = standing && depositInWords(standing, quote.currency, language)
  return conditionsInWords(quote, language, stands && stands.length > 0 ? stands : undefined)
}
