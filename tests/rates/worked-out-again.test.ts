import { isDeepStrictEqual } from 'node:util'
import fc from 'fast-check'
import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Told } from '../../src/estimate/job/bed.ts'
import { readTold } from '../../src/estimate/reading/read-beds.ts'
import { Decimal } from '../../src/lib/decimal.ts'
import { isAdjustable } from '../../src/quotes/compose-lines.ts'
import { priceRequest } from '../../src/quotes/pricing.ts'
import { requirePriceable } from '../../src/quotes/queries.ts'
import { findRateTable, type RateTableVersion } from '../../src/rates/queries.ts'
import { requireRequestId } from '../../src/requests/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { putInForce } from '../helpers/rate-tables.ts'
import { sendRequest } from '../helpers/requests.ts'
import { ballparksAgain, quotesAgain } from '../helpers/worked-out-again.ts'
import { anyTold, anyVersion, anyWish } from './generated-business.ts'

const VERSIONS = 8
const OF_EACH = 5
const SEED = 20_260_303
const some = <T>(arbitrary: fc.Arbitrary<T>, count: number) =>
  fc.sample(arbitrary, { seed: SEED, numRuns: count })

type Wish = ReturnType<typeof anyWish.generate>['value']

let app: TestApp

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  await doBusiness()
})
afterAll(() => app.close())

/** Sends beds at the rates in force, where they can be read; gives the request's number. */
async function send(told: Told): Promise<string[]> {
  const { body } = (await findRateTable(app.db, app.deps.now()))!
  return readTold(told, body).ok ? [(await sendRequest(app, { told, email: '' })).number] : []
}

/** Quotes a request at the rates in force, as the contractor wishes. */
async function quote(number: string, { terms, more, added }: Wish): Promise<void> {
  const id = await requireRequestId(app.db, number)
  const { price } = await priceRequest(app.db, app.deps.now(), await requirePriceable(app.db, id), terms)
  const amounts = price.lines.filter(isAdjustable).map(({ amount }, index) => ({
    amount: index === 0 ? new Decimal(amount).plus(more).toFixed(2) : amount,
    reason: 'As agreed',
  }))
  await quoteRequest(app, number, { terms, added, amounts })
}

/** Sends and quotes generated jobs, a few at each of many versions. */
async function doBusiness(): Promise<void> {
  const [tolds, wishes] = [some(anyTold, VERSIONS * OF_EACH), some(anyWish, VERSIONS * OF_EACH)]
  const sent: string[] = []
  for (const table of some(anyVersion, VERSIONS)) {
    await putInForce(app, () => table)
    // The last that were sent get their price, or another, only now: at a later version than their ballpark's.
    for (const number of sent.slice(-2)) await quote(number, wishes.pop()!)
    for (const told of tolds.splice(0, OF_EACH)) sent.push(...(await send(told)))
    for (const number of sent.slice(-3)) await quote(number, wishes.pop()!)
  }
}

const everything = async (versionOf?: (id: number) => Promise<RateTableVersion>) => [
  ...(await ballparksAgain(app.db, versionOf)),
  ...(await quotesAgain(app.db, versionOf)),
]

test('every ballpark and quote comes out the same from what is stored, whatever versions came later', async () => {
  const all = await everything()
  for (const { of, stored, again } of all) expect([of, again]).toEqual([of, stored])
  expect(all.length).toBeGreaterThan(VERSIONS * 8)
})

test('among them is every kind of line, and each way that tax goes', async () => {
  const lines = await app.db.selectFrom('quote_line').select('kind').distinct().execute()
  expect(lines.map(({ kind }) => kind).sort()).toEqual([
    'adjustment',
    'extra',
    'finish',
    'laying',
    'minimum',
    'other',
    'set-up',
    'size',
    'tax',
    'travel',
  ])
  const quotes = await app.db.selectFrom('quote').select('tax').execute()
  const ways = quotes.map(({ tax }) => (tax === null ? 'none' : tax.included ? 'included' : 'on top'))
  expect([...new Set(ways)].sort()).toEqual(['included', 'none', 'on top'])
})

test('at the newest version instead of their own most of them come out differently', async () => {
  const newest = (await findRateTable(app.db, app.deps.now()))!
  const all = await everything(async () => newest)
  const different = all.filter(({ stored, again }) => !isDeepStrictEqual(stored, again))
  expect(different.length).toBeGreaterThan(all.length / 2)
})
