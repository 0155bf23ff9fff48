import type { Business } from '../business/queries.ts'
import { mondayOf, weekInWords } from '../days/week.ts'
import type { Stage, Step } from '../db/schema/stages.ts'
import { momentInWords, shortDate, shortDay } from '../language/dates-in-words.ts'
import { moneyInWords, rangeInWords } from '../language/money-in-words.ts'
import { mapAddress, plainMailto, telephone } from '../lib/contact-links.ts'
import { noteOnRow } from './row-notes.ts'
import type { QueueRow } from './rows.ts'
import { shownStep } from './steps.ts'

/** One request as the list shows it. */
export interface RowView {
  number: string
  customer: string
  /** Whether its person was erased: there is nothing to open. */
  isErased: boolean
  place: string
  /** The quote's total, else the range. */
  price: string
  came: string
  next: string
  /** Whether it has waited too long. */
  late: boolean
  /** What its step needs to know beyond that, or ''. */
  note: string
  step: Step | null
  phone: { words: string; address: string } | null
  /** Opens a mail where no phone was given. */
  email: string | null
  /** Opens the address on the device's own map. */
  map: string
  /** The load list of its first day, where it is to be loaded. */
  loadList: string | null
  /** How often a call had no answer. */
  calls: number
  /** Whom of the staff it is given to. */
  givenTo: string | null
  /** Whether it is folded away until its day comes closer. */
  folded: boolean
}

const UNFOLDED_DAYS = 3

/** A row of the list in words: what is next and since when, or how it ended. */
export function rowInWords(row: QueueRow, business: Business, now: Temporal.Instant): RowView {
  const step = row.junk_at ? null : shownStep(row, now)
  return {
    number: row.number,
    customer: row.name,
    isErased: row.is_erased,
    place: [row.street, row.postcode].filter(Boolean).join(', '),
    price: priceInWords(row, business.currency),
    came: `received ${shortDay(row.arrived_at, business.time_zone)}`,
    next: nextInWords(row, business, now),
    late: isLate(row, now),
    note: noteOnRow(row, step, business, now),
    step,
    phone: telephone(row.phone),
    email: telephone(row.phone) === null ? plainMailto(row.email) : null,
    map: mapAddress(row),
    loadList: step === 'Load' && row.stage === 'booked' && row.first_day ? `/loads/${row.first_day}` : null,
    calls: row.calls,
    givenTo: row.given_to_name,
    folded: step === 'Load' && isFurtherAhead(row.due_at, now),
  }
}

function priceInWords(row: QueueRow, currency: string): string {
  if (row.total !== null) return moneyInWords(row.total, row.currency ?? currency, 'en')
  return row.low !== null && row.high !== null ? rangeInWords(row.low, row.high, currency) : ''
}

/** What is next and since or until when; of an ended one how it ended. */
export function nextInWords(row: QueueRow, { time_zone: zone }: Business, now: Temporal.Instant): string {
  const late = isLate(row, now)
  const since = shortDay(row.stage_at, zone)
  if (row.junk_at) return `junk since ${shortDay(row.junk_at, zone)}`
  switch (row.stage) {
    case 'new':
    case 'measured':
      if (row.call_again_at) return againInWords(row.call_again_at, zone, late)
      return promisedInWords(row, zone, late)
    case 'visit set':
      if (!row.starts_at) return 'visit set'
      return `visit ${late ? 'was ' : ''}${momentInWords(row.starts_at, zone, 'en')}`
    case 'quoted':
      if (row.call_again_at) return againInWords(row.call_again_at, zone, late)
      if (row.accepted_at) return `accepted ${shortDay(row.accepted_at, zone)}, no day yet`
      return shownStep(row, now) === 'Call' ? `no answer since ${since}` : `quoted ${since}`
    case 'day asked':
      if (row.call_again_at) return againInWords(row.call_again_at, zone, late)
      return askedInWords(row, zone)
    case 'week chosen':
      return weekToSay(row, zone, late)
    case 'booked':
      return row.first_day ? `work day ${shortDate(row.first_day)}` : `booked ${since}`
    default:
      return `${stageInWords(row.stage)} ${since}`
  }
}

function askedInWords({ first_day, due_at, stage_at }: QueueRow, zone: string): string {
  const day = first_day ? shortDate(first_day) : 'a day'
  return `asked for ${day}, held until ${momentInWords(due_at ?? stage_at, zone, 'en')}`
}

function weekToSay({ first_day, say_by, stage_at }: QueueRow, zone: string, late: boolean): string {
  if (!first_day || !say_by) return `booked ${shortDay(stage_at, zone)}`
  const week = weekInWords(mondayOf(first_day), 'en')
  return `${week}: ${late ? 'the day was to be said' : 'pick the day'} by ${shortDate(say_by)}`
}

// What is due was promised by the end of the day before.
function promisedInWords({ due_at, stage_at }: QueueRow, zone: string, late: boolean): string {
  const last = Temporal.Instant.from(due_at ?? stage_at).subtract({ seconds: 1 })
  return `answer ${late ? 'was due' : 'by'} ${shortDay(last.toString(), zone)}`
}

function againInWords(at: string, zone: string, late: boolean): string {
  if (late) return 'try again now'
  const time = Temporal.Instant.from(at).toZonedDateTimeISO(zone)
  const isDay = time.hour === 0 && time.minute === 0
  return `try again ${isDay ? shortDay(at, zone) : momentInWords(at, zone, 'en')}`
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

// What was promised, or set for a time; a quote without an answer is under Call by then.
function isLate(row: QueueRow, now: Temporal.Instant): boolean {
  const step = shownStep(row, now)
  if (row.due_at === null || (step !== 'Call' && step !== 'Measure' && step !== 'Price')) return false
  return Temporal.Instant.compare(row.due_at, now) <= 0
}

function isFurtherAhead(dueAt: string | null, now: Temporal.Instant): boolean {
  if (!dueAt) return false
  return Temporal.Instant.from(dueAt).since(now).total('days') > UNFOLDED_DAYS
}
