import type { Transaction } from 'kysely'
import type { Business } from '../business/queries.ts'
import { startOf } from '../days/start.ts'
import { mondayIn } from '../days/week.ts'
import { json } from '../db/json.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { Conflict } from '../http/errors.ts'
import { t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { cents, Decimal } from '../lib/decimal.ts'
import { amountInWords, amountOf } from '../quotes/conditions.ts'
import { hasNear, withNear, withoutNear } from '../quotes/near-discount.ts'
import { findAcceptedQuote, findNewestQuote, insertQuote, type QuoteWithLines } from '../quotes/queries.ts'
import { insertShares, sharesOfQuote } from '../quotes/stop-shares.ts'
import { requireRateTable } from '../rates/queries.ts'
import { requireVersion } from '../rates/standing.ts'
import { type Doer, recordHistory } from '../requests/history.ts'
import { type TextToAccept, textOf } from './accepted-text.ts'
import { findNearDays } from './near-days.ts'
import { insertAcceptance, insertAcceptedText, requireBookingRequest } from './queries.ts'

/** What a price becomes by the day that its homeowner chooses: with the discount for work near, or without it again. */
export interface NearChange {
  /** The quote that it is made of, by its id. */
  of: number
  gains: boolean
  quote: QuoteWithLines
  shown: TextToAccept
}

/** A price on a day with work near or without; undefined where it stays as it is. */
export function priceOn(
  quote: QuoteWithLines,
  isNear: boolean,
  { near_discount: discount }: Pick<Business, 'near_discount'>,
  table: RateTable,
): QuoteWithLines | undefined {
  if (hasNear(quote)) return isNear ? undefined : withoutNear(quote, table)
  return isNear && discount ? withNear(quote, discount, table) : undefined
}

/**
 * The same of a quote that is accepted, or about to be, and a start (see startText), with the words that it is accepted by.
 * Undefined of a week (see weekText): which day of it will be near isn't known.
 */
export async function findNearChange(
  deps: Deps,
  quoteRequestId: number,
  offered: QuoteWithLines | undefined,
  start: string,
  language: Language,
): Promise<NearChange | undefined> {
  const { business } = await deps.standing.read()
  if (!offered || !business || (!business.near_discount && !hasNear(offered))) return undefined
  if (mondayIn(start)) return undefined
  const { day } = startOf(start)
  const request = await requireBookingRequest(deps.db, quoteRequestId)
  const near = await findNearDays(deps.db, [day], request)
  const { body: table } = await requireVersion(deps, offered.rate_table_id)
  const price = priceOn(offered, near.has(day), business, table)
  if (!price) return undefined
  const quote = { ...price, revision: offered.revision + 1 }
  const shown = await textOf(deps, quoteRequestId, quote, language)
  return { of: offered.id, gains: near.has(day), quote, shown }
}

/** The same of what is accepted already; undefined where a change to it waits for an answer, too. */
export async function findNearChangeOfAccepted(
  deps: Deps,
  quoteRequestId: number,
  start: string,
  language: Language,
): Promise<NearChange | undefined> {
  const newest = await findNewestQuote(deps.db, quoteRequestId)
  return newest?.accepted_at ? findNearChange(deps, quoteRequestId, newest, start, language) : undefined
}

/**
 * Makes what a price becomes the next revision, accepted under the same name, in the transaction that books its day.
 * @throws {Conflict} when the price, or what is near on that day, is no longer as it was looked at
 */
export async function keepNearChange(
  trx: Transaction<Database>,
  quoteRequestId: number,
  change: NearChange,
  start: string,
  doer: Doer,
  at: Temporal.Instant,
): Promise<QuoteWithLines> {
  const before = await findNewestQuote(trx, quoteRequestId)
  const { day } = startOf(start)
  const request = await requireBookingRequest(trx, quoteRequestId)
  const isNear = (await findNearDays(trx, [day], request)).has(day)
  if (before?.id !== change.of || !before.typed_name || isNear !== change.gains)
    throw new Conflict('near.gone')
  const { id: _id, made_by_name, typed_name, accepted_at, language: _language, lines, ...row } = before
  const { quote, shown } = change
  const id = await insertQuote(
    trx,
    {
      ...row,
      revision: quote.revision,
      job: json(row.job),
      understood: json(row.understood),
      terms: json(row.terms),
      tax: quote.tax && json(quote.tax),
      why: json(row.why),
      choices: null,
      picked: null,
      conditions: row.conditions && json(row.conditions),
      total: quote.total,
      made_at: at.toString(),
    },
    quote.lines,
  )
  const { body: table } = await requireRateTable(trx, row.rate_table_id)
  await insertShares(trx, id, sharesOfQuote(quote, table))
  await insertAcceptance(trx, id, before.typed_name, at, null)
  await insertAcceptedText(trx, id, shown)
  const detail = { revision: String(quote.revision), total: quote.total, currency: row.currency, day }
  await recordHistory(
    trx,
    quoteRequestId,
    doer,
    change.gains ? 'near discount' : 'near discount ended',
    at,
    detail,
  )
  return (await findAcceptedQuote(trx, quoteRequestId))!
}

/** What is said of a price beside a day, and whether it becomes less or more there. */
export interface NearView {
  words: string
  by: 'less' | 'more' | null
}

/** What choosing a day makes of a price, in words; null where nothing is to be said. */
export async function nearWords(
  deps: Deps,
  business: Business,
  quote: QuoteWithLines,
  language: Language,
): Promise<(isNear: boolean) => NearView | null> {
  const { body: table } = await requireVersion(deps, quote.rate_table_id)
  const money = (amount: string) => moneyInWords(amount, quote.currency, language)
  const [there, elsewhere] = [true, false].map(isNear => priceOn(quote, isNear, business, table))
  const discount = business.near_discount
  const offer = there && discount ? offered(there) : null
  const lost = elsewhere && t(language, 'near.lost', { total: money(elsewhere.total) })
  return isNear => {
    if (!isNear) return lost ? { words: lost, by: 'more' } : null
    if (offer) return { words: offer, by: 'less' }
    return hasNear(quote) ? { words: t(language, 'near.kept'), by: null } : null
  }

  function offered(price: QuoteWithLines): string {
    const said = {
      less: money(cents(new Decimal(quote.total).minus(price.total))),
      total: money(price.total),
    }
    const off = price.lines.find(({ kind, slug }) => kind === 'other' && slug === 'near')!.amount
    const sum = price.lines
      .filter(({ kind }) => kind !== 'tax')
      .reduce((all, { amount }) => all.plus(amount), new Decimal(0))
    const isWhole =
      discount!.by === 'share' &&
      amountOf(discount!, sum.minus(off).toFixed(2)).eq(new Decimal(off).negated())
    if (!isWhole) return t(language, 'near.offer-least', said)
    return t(language, 'near.offer', {
      ...said,
      discount: amountInWords(discount!, quote.currency, language),
    })
  }
}

/** Which days a form showed with another price, as it carries them. */
export function nearSeen(days: { day: string; near: NearView | null }[]): string {
  const changed = days.filter(({ near }) => near?.by)
  return changed.map(({ day, near }) => `${near!.by === 'less' ? '-' : '+'}${day}`).join(',')
}

/**
 * Refuses a price that is worse than the form showed it for a day.
 * @throws {Conflict}
 */
export function refuseWorse(seen: string, day: string, change: NearChange | undefined): void {
  const days = seen.split(',')
  const isLost = days.includes(`-${day}`) && !change?.gains
  const isUnseen = change !== undefined && !change.gains && !days.includes(`+${day}`)
  if (isLost || isUnseen) throw new Conflict('near.gone')
}
