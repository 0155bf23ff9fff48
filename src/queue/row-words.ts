import type { Business } from '../business/queries.ts'
import type { Stage } from '../db/schema.ts'
import { momentInWords, shortDate, shortDay } from '../language/dates-in-words.ts'
import { moneyInWords, rangeInWords } from '../language/money-in-words.ts'
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
    came: `received ${shortDay(row.arrived_at, business.time_zone)}`,
    next: nextInWords(row, business),
    late: isLate(row, business, now),
  }
}

function priceInWords(row: FoundRow, currency: string): string {
  if (row.total !== null) return moneyInWords(row.total, row.currency ?? currency, 'en')
  return row.low !== null && row.high !== null ? rangeInWords(row.low, row.high, currency) : ''
}

function nextInWords(row: FoundRow, { time_zone: zone }: Business): string {
  const since = shortDay(row.stage_at, zone)
  switch (row.stage) {
    case 'new':
      if (row.step === 'Price') return 'no visit'
      return since === shortDay(row.arrived_at, zone) ? 'to be called' : `to be called since ${since}`
    case 'visit set':
      return row.starts_at ? `visit ${momentInWords(row.starts_at, zone, 'en')}` : 'visit set'
    case 'measured':
      return `measured ${since}`
    case 'quoted':
      if (row.accepted_at) return `accepted ${shortDay(row.accepted_at, zone)}, no day yet`
      return `quoted ${since}${row.holds_until ? `, good through ${shortDate(row.holds_until)}` : ''}`
    case 'booked':
      return row.first_day ? `work day ${shortDate(row.first_day)}` : `booked ${since}`
    default:
      return `${stageInWords(row.stage)} ${since}`
  }
}

/** How a request is said to have ended, or to stand: a stage has a word of its own where people say it otherwise. */
export function stageInWords(stage: Stage): string {
  switch (stage) {
    case 'called off':
      return 'canceled'
    case 'not taken':
      return 'declined'
    case "can't do":
      return 'turned down'
    case 'lapsed':
      return 'expired'
    default:
      return stage
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
