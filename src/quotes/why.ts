import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import { t } from '../language/catalogue.ts'
import type { InBoth, Language } from '../language/language.ts'
import { moneyInWords, rangeInWords } from '../language/money-in-words.ts'
import { Decimal, sumOf } from '../lib/decimal.ts'
import { changedBeds } from './changed-beds.ts'
import { ROUNDED } from './compose-lines.ts'
import type { ComposedQuote } from './compose-quote.ts'
import type { Priced } from './pricing.ts'

const MOST_BEDS_NAMED = 5

/** The range that a homeowner saw, the beds it was for, and the version of the rates; undefined where there was none. */
export type Seen = NonNullable<Awaited<ReturnType<typeof findSeen>>>

/** What the homeowner of a request was shown before; undefined where no range was given. */
export async function findSeen(db: Kysely<Database>, quoteRequestId: number) {
  const row = await db
    .selectFrom('ballpark')
    .innerJoin('quote_request', 'quote_request.id', 'ballpark.quote_request_id')
    .select(['ballpark.low', 'ballpark.high', 'ballpark.rate_table_id', 'ballpark.result'])
    .select(['quote_request.told', 'quote_request.understood', 'quote_request.agreed'])
    .where('quote_request_id', '=', quoteRequestId)
    .executeTakeFirst()
  if (!row) return undefined
  const { result, ...seen } = row
  return { ...seen, hasTax: result.tax?.inRange ?? true }
}

/** How much a price is above the range that was seen, below zero where it is under it; zero inside, or without one. */
export function outsideBy(seen: Seen | undefined, { lines, total }: ComposedQuote): Decimal {
  if (!seen) return new Decimal(0)
  const added = lines.filter(({ kind }) => kind === 'tax').map(({ amount }) => new Decimal(amount))
  const price = new Decimal(total).minus(seen.hasTax ? 0 : sumOf(added))
  if (price.gt(seen.high)) return price.minus(seen.high)
  return price.lt(seen.low) ? price.minus(seen.low) : new Decimal(0)
}

/** The warning that a price is above the range that was seen. */
export function aboveRange(
  seen: Seen | undefined,
  composed: ComposedQuote | null,
  currency: string,
): string[] {
  const above = composed && outsideBy(seen, composed)
  if (!seen || !above?.gt(0)) return []
  const range = rangeInWords(seen.low, seen.high, currency)
  return [
    `This is ${moneyInWords(above.toFixed(2), currency, 'en')} above the range they saw, ${range}. Say why below.`,
  ]
}

/** The same words whatever the language, as when the contractor wrote them. */
export function inBoth(words: string): InBoth {
  return { en: words, es: words }
}

/**
 * Why a price is what it is, from the figures alone: said where it is outside the range that was seen, or the beds are
 * others by a tenth. Empty where there is nothing to explain.
 */
export function whyOf(seen: Seen | undefined, priced: Priced, composed: ComposedQuote): InBoth {
  const tell = (language: Language) => (seen ? tellWhy(seen, priced, composed, language) : '')
  return { en: tell('en'), es: tell('es') }
}

function tellWhy(seen: Seen, priced: Priced, composed: ComposedQuote, language: Language): string {
  const isOutside = !outsideBy(seen, composed).isZero()
  const changed = changedBeds(seen, priced, isOutside ? '0.02' : '0.1', language)
  if (!isOutside && changed.length === 0) return ''
  const named = changed.slice(0, MOST_BEDS_NAMED)
  const more = changed.length - named.length
  const because = [
    ...named,
    ...(more > 0 ? [t(language, 'why.more', { count: more })] : []),
    ...(isOutside ? besidesBeds(seen, priced, composed, language) : []),
  ]
  return [sawInWords(seen, priced.rates.body.currency, language), ...because].join(' ')
}

function besidesBeds(seen: Seen, priced: Priced, { lines }: ComposedQuote, language: Language): string[] {
  const added = lines.flatMap(({ kind, description, amount, reason }) =>
    kind === 'other' && description && reason !== ROUNDED && Number(amount) > 0 ? [description] : [],
  )
  return [
    ...(added.length > 0 ? [t(language, 'why.added', { what: added.join('; ') })] : []),
    ...(seen.agreed ? [t(language, 'why.picked')] : []),
    ...(seen.rate_table_id === priced.rates.id ? [] : [t(language, 'why.rates')]),
  ]
}

function sawInWords({ low, high }: Seen, currency: string, language: Language): string {
  const [from, to] = [low, high].map(amount => moneyInWords(amount, currency, language, { whole: true }))
  return from === to
    ? t(language, 'why.saw-one', { low: from! })
    : t(language, 'why.saw', { low: from!, high: to! })
}
