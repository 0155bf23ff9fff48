import type { Business } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { dayInWords, momentInWords } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { addDays, dayOf } from '../lib/dates.ts'
import { findLinkPath } from '../requests/links.ts'

/** What the blanks of messages are filled with to show them: of the newest request, as far as it goes. */
export type Sample = Record<string, string> & { link: string }

const NOBODY = { id: 0, number: '26-0001', name: 'Carol Reyes', street: '12 Fern Lane' }

/** The newest request’s number, name, street, range or price, and link; and tomorrow for every day and time. */
export async function sampleOf(deps: Deps, business: Business, language: Language): Promise<Sample> {
  const newest = await deps.db
    .selectFrom('quote_request')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .innerJoin('place', 'place.id', 'quote_request.place_id')
    .leftJoin('ballpark', 'ballpark.quote_request_id', 'quote_request.id')
    .select(['quote_request.id', 'quote_request.number', 'customer.name', 'place.street'])
    .select(['ballpark.low', 'ballpark.likely', 'ballpark.high'])
    .where('quote_request.junk_at', 'is', null)
    .orderBy('quote_request.id', 'desc')
    .executeTakeFirst()
  const { id, number, name, street, low, likely, high } = {
    low: null,
    likely: null,
    high: null,
    ...(newest ?? NOBODY),
  }
  const path = await findLinkPath(deps.db, deps.secretKey, 'own page', id)
  const money = (amount: string | null) =>
    moneyInWords(amount ?? '400', business.currency, language, { whole: true })
  const tomorrow = addDays(dayOf(deps.now(), business.time_zone), 1)
  return {
    number,
    name,
    street: street || NOBODY.street,
    business: business.name,
    days: String(business.answer_within_days),
    low: money(low),
    high: money(high),
    total: money(likely),
    day: dayInWords(tomorrow, language),
    when: momentInWords(deps.now().add({ hours: 24 }).toString(), business.time_zone, language),
    link: deps.config.publicUrl + (path ?? `/r/${'A'.repeat(43)}`),
  }
}
