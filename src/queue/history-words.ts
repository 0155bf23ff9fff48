import type { Business } from '../business/queries.ts'
import { dayInWords, momentInWords } from '../language/dates-in-words.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import type { findHistory } from '../requests/history.ts'

type HistoryRow = Awaited<ReturnType<typeof findHistory>>[number]
type Detail = Record<string, string>

const DECLINED: Detail = {
  price: 'the price',
  later: 'another time',
  myself: 'doing it without us',
  other: 'something else',
}

const WORDS: Record<string, (detail: Detail, business: Business) => string> = {
  sent: () => 'Sent the request',
  'visit set': ({ at }, business) => `Visit set for ${moment(at, business)}`,
  'visit moved': ({ at }, business) => `Visit moved to ${moment(at, business)}`,
  'visit called off': () => 'Visit canceled',
  'visit left out': () => 'Visit skipped: to be priced from the beds as described',
  measured: ({ beds }) => `Measured ${beds} ${beds === '1' ? 'kind' : 'kinds'} of bed`,
  quoted: ({ revision, total, currency }) =>
    `Quoted ${moneyInWords(total ?? '0', currency ?? 'USD', 'en')} (quote ${revision})`,
  'booking link made': () => 'New booking link made',
  'booking link ended': () => 'Booking link turned off',
  accepted: ({ revision, name }) => `Accepted quote ${revision} as ${name}`,
  'day booked': ({ day }) => `Day booked: ${day ? dayInWords(day, 'en') : ''}`,
  'not taken': ({ reason, words }) =>
    ['Declined the quote', reason && DECLINED[reason], words].filter(Boolean).join(': '),
  lapsed: () => 'Quote expired',
  "can't do": ({ reason }) => `Turned down: ${reason}`,
  'called off': ({ reason }) => ['Canceled', reason].filter(Boolean).join(': '),
  'address confirmed': () => 'Confirmed their email address',
  'phone changed': () => 'Changed their phone number',
  'photos added': ({ photos }) => `Added ${photos} ${photos === '1' ? 'photo' : 'photos'}`,
  'photo removed': () => 'Removed a photo',
  'note added': ({ note }) => `Wrote: ${note}`,
  noted: ({ note }) => `Note: ${note}`,
}

export interface HistoryView {
  what: string
  at: string
  when: string
  who: string
}

/** What happened, in plain words; a verb that has none of its own is shown as it is, with what was kept about it. */
export function historyInWords(rows: HistoryRow[], customerName: string, business: Business): HistoryView[] {
  return rows.map(row => ({
    what: WORDS[row.verb]?.(row.detail, business) ?? asItIs(row.verb, row.detail),
    at: row.at,
    when: momentInWords(row.at, business.time_zone, 'en'),
    who: { staff: row.account_name ?? '', homeowner: customerName, clock: 'automatic' }[row.by_kind],
  }))
}

function asItIs(verb: string, detail: Detail): string {
  const kept = Object.values(detail).filter(Boolean).join(', ')
  return `${verb.charAt(0).toUpperCase()}${verb.slice(1)}${kept && `: ${kept}`}`
}

function moment(at: string | undefined, business: Business): string {
  return at ? momentInWords(at, business.time_zone, 'en') : ''
}
