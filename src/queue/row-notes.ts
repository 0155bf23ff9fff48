import { overdueInWords } from '../billing/money-view.ts'
import type { Business } from '../business/queries.ts'
import { mondayOf } from '../days/week.ts'
import type { Step } from '../db/schema/stages.ts'
import { shortDate, shortDay } from '../language/dates-in-words.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { dayOf } from '../lib/dates.ts'
import { cents, Decimal } from '../lib/decimal.ts'
import { depositStanding } from '../payments/standing.ts'
import type { QueueRow } from './rows.ts'

/** What a step needs to know of a request beyond what every row says; '' where that is all. */
export function noteOnRow(
  row: QueueRow,
  step: Step | null,
  business: Business,
  now: Temporal.Instant,
): string {
  const { time_zone: zone } = business
  const notes = [...stepNotes(row, step, zone, now)]
  const due = step === null ? '' : depositDue(row, business, now)
  if (due) notes.unshift(due)
  const isHeld = row.on_hold_until !== null && row.on_hold_until > dayOf(now, zone)
  if (isHeld) notes.unshift(`on hold until ${shortDate(row.on_hold_until!)}`)
  return notes.join('; ')
}

function depositDue(row: QueueRow, business: Business, now: Temporal.Instant): string {
  const { time_zone } = business
  const { total, currency, held, conditions, accepted_at } = row
  if (total === null || currency === null) return ''
  if (row.stage === 'billed') {
    const late =
      row.owed.startsWith('-') || !row.bill_due ? '' : overdueInWords(row.bill_due, dayOf(now, time_zone))
    return [owedInWords(row.owed, currency), late && `${late[0]!.toLowerCase()}${late.slice(1)}`]
      .filter(Boolean)
      .join(', ')
  }
  if (row.stage === 'done' || row.stage === 'paid') return ''
  if (row.step === 'Collect')
    return held === null ? '' : `${moneyInWords(held, currency, 'en')} held: settle it`
  const begins = row.first_day && row.say_by ? mondayOf(row.first_day) : (row.first_day ?? undefined)
  const asking = { conditions, total, currency, accepted_at }
  const standing = depositStanding(asking, held ?? '0', begins, business, now)
  return standing?.isDue
    ? `deposit due: ${moneyInWords(cents(new Decimal(standing.asked).minus(standing.received)), currency, 'en')}`
    : ''
}

function owedInWords(owed: string, currency: string): string {
  return owed.startsWith('-')
    ? `${moneyInWords(owed.slice(1), currency, 'en')} to give back or keep as credit`
    : `${moneyInWords(owed, currency, 'en')} still to pay`
}

function stepNotes(row: QueueRow, step: Step | null, zone: string, now: Temporal.Instant): string[] {
  switch (step) {
    case 'Call':
      return [
        row.unreached_at ? 'a message couldn’t be sent' : '',
        row.unsuited_at ? 'what is set doesn’t suit them' : '',
        row.sent_as === 'photos' && row.low === null && !row.is_measured ? 'photos only' : '',
        callsInWords(row.calls),
        row.preferred_times && `good times: ${row.preferred_times}`,
      ].filter(Boolean)
    case 'Price':
      return [row.is_measured ? 'measured' : 'not measured', row.low === null ? 'no range yet' : ''].filter(
        Boolean,
      )
    case 'Follow up':
      return [callsInWords(row.calls), linkInWords(row, zone), leftInWords(row, zone, now)].filter(Boolean)
    default:
      return []
  }
}

/** 'called twice, no answer', or '' where nobody called. */
export function callsInWords(calls: number): string {
  if (calls === 0) return ''
  const times = calls === 1 ? 'once' : calls === 2 ? 'twice' : `${calls} times`
  return `called ${times}, no answer`
}

/** How far the booking link has come: '' where there is no quote. */
export function linkInWords(row: QueueRow, zone: string): string {
  if (row.total === null) return ''
  if (row.seen_at) return `read ${shortDay(row.seen_at, zone)}`
  const sent = row.mailed_at ?? row.handed_over_at
  return sent ? `link sent ${shortDay(sent, zone)}, not read yet` : 'link not sent yet'
}

function leftInWords({ holds_until }: QueueRow, zone: string, now: Temporal.Instant): string {
  if (!holds_until) return ''
  const { days } = Temporal.PlainDate.from(dayOf(now, zone)).until(holds_until)
  if (days < 0) return `expired ${shortDate(holds_until)}`
  return days === 0 ? 'last day' : `${days} ${days === 1 ? 'day' : 'days'} left`
}
