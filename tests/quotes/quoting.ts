import { json } from '../../src/db/json.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { findNewestQuote } from '../../src/quotes/queries.ts'
import { findRateTable } from '../../src/rates/queries.ts'
import { taxOf } from '../estimate/taxes.ts'
import type { TestApp } from '../helpers/app.ts'
import type { Browser } from '../helpers/people.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

/** A quote form that confirms all as worked out. */
export const plain = { do: 'confirm', laborHours: '3', note: '' }

/** Sends a bed of 81 ft³, 3 yd³: 300.00 at 100. Its ZIP isn't served, so there is no travel, which a quote may overrule. */
export async function sendThreeYards(app: TestApp, finish = 'shredded-wood') {
  return sendRequest(app, { told: told(bedTold({ sizes: { length: '27 ft', width: '12 ft' }, finish })) })
}

/** Puts a version of the rates in force that differs as told. */
export async function changeRates(app: TestApp, change: (body: RateTable) => RateTable): Promise<void> {
  const { version, body } = (await findRateTable(app.db, app.deps.now()))!
  const made = { made_at: app.deps.now().toString(), made_by: 1 }
  await app.db
    .insertInto('rate_table')
    .values({ version: version + 1, body: json(change(body)), ...made })
    .execute()
}

/** Charges an invented 8.25 % on everything, upkeep and new work alike, unless told otherwise. */
export function chargeTax(app: TestApp, changes: Parameters<typeof taxOf>[0] = {}): Promise<void> {
  return changeRates(app, body => ({ ...body, tax: taxOf({ rate: '0.0825', ...changes }) }))
}

/** The newest quote's lines and its total: ['finish 300.00', 'tax 24.75', '324.75']. */
export async function linesOf(app: TestApp, id: number): Promise<string[]> {
  const quote = (await findNewestQuote(app.db, id))!
  return [...quote.lines.map(({ kind, amount }) => `${kind} ${amount}`), quote.total]
}

/** What the booking link shows, in plain words. */
export async function bookingWords(app: TestApp, owner: Browser, number: string): Promise<string> {
  const page = await owner.get(`/queue/${number}/hand-over`)
  const [link] = /\/b\/[\w.-]+/.exec(page.text) ?? []
  if (!link) throw new Error('No booking link on the page to hand over')
  return (await app.browser().get(link)).text.replace(/<[^>]*>/g, '').replace(/\s+/g, ' ')
}
