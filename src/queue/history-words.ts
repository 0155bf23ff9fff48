import type { Business } from '../business/queries.ts'
import { startInWords, startOf } from '../days/start.ts'
import { weekInWords } from '../days/week.ts'
import { dayInWords, momentInWords, shortDate } from '../language/dates-in-words.ts'
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

const WENT: Detail = {
  done: 'Done, with differences',
  'part done': 'Part of it done',
  stopped: 'Stopped, to be billed for what is done',
}

const WORDS: Record<string, (detail: Detail, business: Business) => string> = {
  sent: () => 'Sent the request',
  'visit set': ({ at }, business) => `Visit set for ${moment(at, business)}`,
  'visit moved': ({ at }, business) => `Visit moved to ${moment(at, business)}`,
  'visit called off': () => 'Visit canceled',
  'times offered': ({ times = '' }, business) =>
    `Sent times to pick from: ${times
      .split(' ')
      .map(at => moment(at, business))
      .join('; ')}`,
  'time unsuited': ({ words }) => ['The visit’s time doesn’t suit them', words].filter(Boolean).join(': '),
  'visit left out': () => 'Visit skipped: to be priced from the beds as described',
  measured: ({ beds }) => `Measured ${beds} ${beds === '1' ? 'kind' : 'kinds'} of bed`,
  quoted: ({ revision, total, currency }) =>
    `Quoted ${moneyInWords(total ?? '0', currency ?? 'USD', 'en')} (quote ${revision})`,
  'booking link made': () => 'New booking link made',
  'booking link ended': () => 'Booking link turned off',
  'own link made': () => 'New link to their own page made',
  'own link ended': () => 'Link to their own page turned off',
  accepted: ({ revision, name, on, order, picked }) =>
    `Accepted quote ${revision} as ${name}${on ? ' on your phone' : ''}${order ? `, purchase order ${order}` : ''}${picked ? `. ${picked}` : ''}`,
  'change withdrawn': ({ revision }) => `Took the change back (quote ${revision})`,
  'deposit received': ({ amount, day, way }, { currency }) =>
    `Deposit received: ${moneyInWords(amount ?? '0', currency, 'en')}, ${paidInWords(way, day)}`,
  'payment undone': ({ amount, day, way }, { currency }) =>
    `Payment undone: ${moneyInWords(amount ?? '0', currency, 'en')}, ${paidInWords(way, day)}`,
  'sold out at the yard': ({ what }) => `Sold out at the yard: ${what}`,
  'deposit settled': ({ kept, back }, { currency }) =>
    `Deposit settled: ${moneyInWords(kept ?? '0', currency, 'en')} kept, ${moneyInWords(back ?? '0', currency, 'en')} given back`,
  'day asked': ({ day }) => `Asked for ${start(day) || 'a day'}`,
  billed: ({ number, total }, { currency }) =>
    `Bill ${number}: ${moneyInWords(total ?? '0', currency, 'en')}`,
  'bill credited': ({ number, bill, reason }) => `Credit memo ${number} cancels ${bill}: ${reason}`,
  'bill reminded': ({ number }) => `Reminded of ${number}`,
  'payment received': ({ amount, day, way, tip }, { currency }) =>
    `Payment received: ${moneyInWords(amount ?? '0', currency, 'en')}, ${paidInWords(way, day)}${tip ? `, and a tip of ${moneyInWords(tip, currency, 'en')}` : ''}`,
  'given back': ({ amount, day, way }, { currency }) =>
    `Given back: ${moneyInWords(amount ?? '0', currency, 'en')}, ${paidInWords(way, day)}`,
  'credit kept': ({ amount }, { currency }) =>
    `Kept as credit: ${moneyInWords(amount ?? '0', currency, 'en')}`,
  'check returned': ({ amount, day, fee }, { currency }) =>
    `Check returned: ${moneyInWords(amount ?? '0', currency, 'en')}, ${day ? dayInWords(day, 'en') : ''}${Number(fee) > 0 ? `, fee ${moneyInWords(fee ?? '0', currency, 'en')}` : ''}`,
  'fee waived': ({ amount }, { currency }) =>
    `Let the fee go: ${moneyInWords(amount ?? '0', currency, 'en')}`,
  'checks taken again': () => 'Takes their checks again',
  'week chosen': ({ week }) => (week ? `Chose ${weekInWords(week, 'en')}` : 'Chose a week'),
  'near discount': ({ revision, total, currency }) =>
    `Discount for a day near another job: ${moneyInWords(total ?? '0', currency ?? 'USD', 'en')} (quote ${revision})`,
  'near discount ended': ({ revision, total, currency }) =>
    `No discount on another day: ${moneyInWords(total ?? '0', currency ?? 'USD', 'en')} (quote ${revision})`,
  'day declined': ({ day, offered, words }) =>
    [
      `Couldn’t do ${start(day) || 'the day'}${offered ? `, offered ${dayInWords(offered, 'en')}` : ''}`,
      words,
    ]
      .filter(Boolean)
      .join(': '),
  'day hold ended': ({ day }) => `${start(day) || 'The day'} wasn’t confirmed, so it’s free again`,
  'day booked': ({ day }) => `Day booked: ${start(day)}`,
  'work moved': ({ from, to, half }) =>
    `Work moved from ${days(from)} to ${days(to)}${half ? `, ${half === 'am' ? 'morning' : 'afternoon'}` : ''}`,
  'moved for rain': ({ from, to }) => `Moved because of rain, from ${days(from)} to ${days(to)}`,
  'day unsuited': ({ day, words }) =>
    [`${start(day) || 'The day'} doesn’t suit them`, words].filter(Boolean).join(': '),
  'kept as set': () => 'It stays as it was set',
  'job closed': ({ from, to }) => `Done as planned, ${days(from === to ? from : `${from} ${to}`)}`,
  'job told': ({ outcome = '', from, to, rest }) =>
    `${WENT[outcome] ?? outcome}, ${days(from === to ? from : `${from} ${to}`)}${rest ? `. The rest on ${days(rest)}` : ''}`,
  'damage noted': ({ words }) => `Damage: ${words}`,
  'come back noted': ({ words, day }) => `Coming back for free on ${days(day)}: ${words}`,
  'put right': ({ words }) => `Came back for free: ${words}`,
  'dig ticket': ({ number, from, until }) =>
    number ? `Utility ticket ${number}, valid ${days(from)} to ${days(until)}` : 'Utility ticket removed',
  'decided to dig': ({ name, ticket }) =>
    `${name} decided to go on with digging, ${ticket ? `with ticket ${ticket} entered` : 'with no ticket entered'}`,
  'job reopened': () => 'Opened again: not done after all',
  'not taken': ({ reason, words }) =>
    ['Declined the quote', reason && DECLINED[reason], words].filter(Boolean).join(': '),
  'tax certificate': ({ number }) =>
    number === 'none' ? 'Tax certificate for this job removed' : `Tax certificate ${number} for this job`,
  'purchase order': ({ number }) => (number ? `Purchase order ${number}` : 'Purchase order number removed'),
  lapsed: () => 'Quote expired',
  "can't do": ({ reason, words }) =>
    ['Turned down', reason && (TURNED_DOWN[reason] ?? reason), words].filter(Boolean).join(': '),
  'taken back': () => 'Took that back: it can be done after all',
  'no answer': ({ calls, again }, business) =>
    `Called, no answer${calls === '1' ? '' : ` (${calls} times)`}: try again ${moment(again, business)}`,
  'put on hold': ({ until }) => `On hold until ${until ? dayInWords(until, 'en', true) : ''}`,
  'taken off hold': () => 'Taken off hold',
  given: ({ to }) => (to ? `Given to ${to}` : 'Given to nobody in particular'),
  'marked as junk': () => 'Marked as junk',
  'marked as real': () => 'Marked as real',
  'link sent': ({ revision }) => `Sent the link of quote ${revision}`,
  'taken up again': ({ from }) => `Taken up again from request ${from}`,
  'taken up again as': ({ number }) => `Taken up again as request ${number}`,
  'called off': ({ reason }) => ['Canceled', reason].filter(Boolean).join(': '),
  'address confirmed': () => 'Confirmed their email address',
  'phone changed': () => 'Changed their phone number',
  'photos added': ({ photos }) => `Added ${photos} ${photos === '1' ? 'photo' : 'photos'}`,
  'photo removed': () => 'Removed a photo',
  'offers agreed': () => 'Agreed to offers',
  'offers ended': () => 'Wants no more offers',
  'wants quiet': () => 'Wants messages about booked work only',
  'quiet ended': () => 'Wants all messages again',
  'note added': ({ note }) => `Wrote: ${note}`,
  'change declined': ({ revision, words }) =>
    [`Declined the change (quote ${revision})`, words].filter(Boolean).join(': '),
  'day too full': ({ hours }) =>
    `The day has no room for ${hours} labor hours: the booked hours stayed as they were`,
  'change asked': ({ words }) => `Asked for a change: ${words}`,
  'question asked': ({ question }) => `Asked: ${question}`,
  noted: ({ note }) => `Note: ${note}`,
}

/** Why a request is turned down, as the staff pick it. */
export const TURNED_DOWN: Record<string, string> = {
  far: 'too far away',
  full: 'booked up',
  kind: 'not our kind of work',
  other: 'something else',
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
    what: eventInWords(row.verb, row.detail, business),
    at: row.at,
    when: momentInWords(row.at, business.time_zone, 'en'),
    who: { staff: row.account_name ?? '', homeowner: customerName, clock: 'automatic' }[row.by_kind],
  }))
}

/** What somebody did, in plain words. */
export function eventInWords(verb: string, detail: Detail, business: Business): string {
  return WORDS[verb]?.(detail, business) ?? asItIs(verb, detail)
}

function asItIs(verb: string, detail: Detail): string {
  const kept = Object.values(detail).filter(Boolean).join(', ')
  return `${verb.charAt(0).toUpperCase()}${verb.slice(1)}${kept && `: ${kept}`}`
}

function moment(at: string | undefined, business: Business): string {
  return at ? momentInWords(at, business.time_zone, 'en') : ''
}

function start(text: string | undefined): string {
  return text ? startInWords(startOf(text), 'en') : ''
}

function paidInWords(way = '', day = ''): string {
  return [way, day && dayInWords(day, 'en')].filter(Boolean).join(', ')
}

function days(kept = ''): string {
  return kept
    .split(' ')
    .filter(Boolean)
    .map(day => shortDate(day))
    .join(', ')
}
