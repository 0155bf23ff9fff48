import type { Business } from '../account/queries.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { momentInWords } from '../lib/dates.ts'
import type { FoundRow } from './list.ts'

/** One request as the list shows it. */
export interface RowView {
  number: string
  customer: string
  place: string
  /** The quote's total, else the range. */
  price: string
  came: string
  next: string
  /** Whether it has waited too long. */
  late: boolean
}

/** A row of the list in words: what is next and since when, or how it ended. */
export function rowInWords(row: FoundRow, business: Business, now: Temporal.Instant): RowView {
  return {
    number: row.number,
    customer: row.name,
    place: [row.street, row.postcode].filter(Boolean).join(', '),
    price: priceInWords(row, business.currency),
    came: `came ${shortDay(row.arrived_at, business.time_zone)}`,
    next: nextInWords(row, business),
    late: isLate(row, business, now),
  }
}

/** "$620 to $810", whole where there are no cents. */
export function rangeInWords(low: string, high: string, currency: string): string {
  const [from, to] = [low, high].map(amount => moneyInWords(amount, currency, 'en', { whole: true }))
  return from === to ? from! : `${from} to ${to}`
}

/** A day in a time zone as "Mon, Mar 2". */
export function shortDay(instant: string, timeZone: string): string {
  return shortDate(Temporal.Instant.from(instant).toZonedDateTimeISO(timeZone).toPlainDate())
}

/** A date 'YYYY-MM-DD' as "Mon, Mar 2". */
export function shortDate(day: string | Temporal.PlainDate): string {
  return SHORT.format(Temporal.PlainDate.from(day))
}

const SHORT = new Intl.DateTimeFormat('en-US', { weekday: 'short', month: 'short', day: 'numeric' })

function priceInWords(row: FoundRow, currency: string): string {
  if (row.total !== null) return moneyInWords(row.total, row.currency ?? currency, 'en')
  return row.low !== null && row.high !== null ? rangeInWords(row.low, row.high, currency) : ''
}

function nextInWords(row: FoundRow, { time_zone: zone }: Business): string {
  const since = shortDay(row.stage_at, zone)
  switch (row.stage) {
    case 'new':
      if (row.step === 'Price') return 'visit left out'
      return since === shortDay(row.arrived_at, zone) ? 'waits for a call' : `waits for a call since ${since}`
    case 'visit set':
      return row.starts_at ? `visit ${momentInWords(row.starts_at, zone, 'en')}` : 'visit set'
    case 'measured':
      return `measured ${since}`
    case 'quoted':
      if (row.accepted_at) return `accepted ${shortDay(row.accepted_at, zone)}, no day yet`
      return `quoted ${since}${row.holds_until ? `, holds until ${shortDate(row.holds_until)}` : ''}`
    case 'booked':
      return row.first_day ? `work day ${shortDate(row.first_day)}` : `booked ${since}`
    default:
      return `${row.stage} ${since}`
  }
}

function isLate(row: FoundRow, business: Business, now: Temporal.Instant): boolean {
  if (row.stage === 'new') {
    const days = now.since(Temporal.Instant.from(row.stage_at)).total('days')
    return days > business.answer_within_days
  }
  if (row.stage === 'visit set')
    return row.starts_at !== null && Temporal.Instant.compare(row.starts_at, now) < 0
  return row.stage === 'quoted' && row.accepted_at !== null
}
