import type { Business } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { datedDay } from '../language/dates-in-words.ts'
import { moneyInWords, rangeInWords } from '../language/money-in-words.ts'
import { dayOf } from '../lib/dates.ts'
import { Decimal, sumOf } from '../lib/decimal.ts'
import type { DecisionRow } from '../places/decisions.ts'
import { stageInWords } from '../queue/row-words.ts'
import { lineName, lineQuantity } from '../quotes/line-name.ts'
import { requireVersion } from '../rates/standing.ts'
import { findLaid, findNotes, type KnownRequest } from './queries.ts'

/** What is known of a customer or a place by its requests, in words. */
export interface Known {
  requests: {
    number: string
    isErased: boolean
    who: string
    place: string
    price: string
    came: string
    stands: string
  }[]
  /** Work days that have come, with the materials of the price. */
  laid: { number: string; day: string; what: string[] }[]
  notes: { number: string; words: string; who: string; when: string }[]
  /** What is done and not paid, as far as it is known; null where nothing is. */
  owed: string | null
  /** What is booked or begun and will be owed; null where nothing is. */
  ahead: string | null
}

/** What is known by these requests, newest first. */
export async function viewKnown(deps: Deps, business: Business, requests: KnownRequest[]): Promise<Known> {
  const zone = business.time_zone
  const ids = requests.map(({ id }) => id)
  const dayIn = (at: string) => dayOfMoment(at, zone)
  const totalOf = (stages: string[]) => {
    const totals = requests.flatMap(one => (stages.includes(one.stage) && one.total ? [one.total] : []))
    return totals.length === 0
      ? null
      : moneyInWords(sumOf(totals.map(total => new Decimal(total))).toFixed(2), business.currency, 'en')
  }
  return {
    requests: requests.map(one => ({
      number: one.number,
      isErased: one.is_erased,
      who: one.name,
      place: one.street,
      price: priceInWords(one, business.currency),
      came: dayIn(one.arrived_at),
      stands: one.first_day ? `work day ${datedDay(one.first_day)}` : stageInWords(one.stage),
    })),
    laid: await viewLaid(deps, business, requests),
    notes: [
      ...(await findNotes(deps.db, ids)).map(({ number, detail, by, at }) => ({
        number,
        words: detail.note ?? '',
        who: by ?? '',
        when: dayIn(at),
      })),
      ...requests.flatMap(({ number, note, name, arrived_at }) =>
        note ? [{ number, words: note, who: name, when: dayIn(arrived_at) }] : [],
      ),
    ],
    owed: totalOf(['done']),
    ahead: totalOf(['week chosen', 'booked', 'part done']),
  }
}

async function viewLaid(deps: Deps, business: Business, requests: KnownRequest[]): Promise<Known['laid']> {
  const today = dayOf(deps.now(), business.time_zone)
  const worked = requests.filter(({ first_day }) => first_day !== null && first_day <= today)
  const lines = await findLaid(
    deps.db,
    worked.map(({ id }) => id),
  )
  return Promise.all(
    worked.map(async ({ id, number, first_day }) => ({
      number,
      day: datedDay(first_day!),
      what: await Promise.all(
        lines
          .filter(line => line.quote_request_id === id)
          .map(async line => {
            const { body } = await requireVersion(deps, line.rate_table_id)
            const quantity = lineQuantity({ ...line, rate: null }, body, 'en')
            return [lineName(line, body, 'en'), quantity].filter(Boolean).join(', ')
          }),
      ),
    })),
  )
}

function priceInWords(row: KnownRequest, currency: string): string {
  if (row.total !== null) return moneyInWords(row.total, row.currency ?? currency, 'en')
  return row.low !== null && row.high !== null ? rangeInWords(row.low, row.high, currency) : ''
}

/** What was decided about a customer or a place: 'joined with Hazel Underhill, by Alice on Mar 2'. */
export interface DecisionView {
  id: number
  words: string
  undone: string | null
  /** What the button says that undoes it. */
  undo: string
}

export function decisionInWords(row: DecisionRow, { time_zone: zone }: Business): DecisionView {
  const isJoin = row.verb === 'joined'
  const dayIn = (at: string) => dayOfMoment(at, zone)
  const when = `by ${row.by} on ${dayIn(row.at)}`
  return {
    id: row.id,
    words: `${isJoin ? 'Joined with' : 'Kept apart from'} ${row.with_words || `number ${row.with_id}`}, ${when}`,
    undone: row.undone_at ? `undone by ${row.undone_by} on ${dayIn(row.undone_at)}` : null,
    undo: isJoin ? 'Separate them again' : 'Offer them again',
  }
}

/** The day of a moment where the business is: 'Mar 2, 2026'. */
export function dayOfMoment(at: string, zone: string): string {
  return datedDay(dayOf(Temporal.Instant.from(at), zone))
}
