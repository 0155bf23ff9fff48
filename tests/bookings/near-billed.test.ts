import { afterAll, beforeAll, expect, test } from 'vitest'
import { creditBill, makeBill } from '../../src/billing/make-bill.ts'
import { acceptAndBook, acceptQuote, bookDay } from '../../src/bookings/booking.ts'
import { callOff } from '../../src/bookings/call-off.ts'
import { json } from '../../src/db/json.ts'
import type { Conditions } from '../../src/db/schema/payments.ts'
import { receiveDeposit } from '../../src/payments/receive.ts'
import { findAcceptedQuote } from '../../src/quotes/queries.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import { taxedOnly } from '../estimate/taxes.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { markDone } from '../helpers/bills.ts'
import { acceptedRequest } from '../helpers/bookings.ts'
import { readPdf } from '../helpers/pdf.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { chargeTax, linesOf, sendThreeYards } from '../quotes/quoting.ts'

const STAFF = { kind: 'staff', accountId: 1 } as const
const NEAR = '2026-03-10'
const WORDS = 'Near another job that day'
const DEPOSIT: Conditions = {
  deposit: { by: 'share', value: '0.25', cap: null, daysBefore: null },
  notice: null,
  waits: false,
}
const GATE = { description: 'Gate', amount: '100.00', reason: 'asked for' }
const BY_CAROL = { typedName: 'Carol Reyes' }

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  // Shredded wood at 80 to 120: 300 for three yards, in the middle.
  owner = (await openBusiness(app, { 'rates.shredded-wood.0.upper': '120' })).owner
  await app.db
    .updateTable('business')
    .set({ near_discount: json({ by: 'share', value: '0.05' }) })
    .execute()
  const neighbor = await acceptedRequest(app, '1')
  await bookDay(app.deps, neighbor.id, NEAR, STAFF)
})
afterAll(() => app.close())

const wordsOf = (html: string) => html.replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ')

/** Three yards at 300, near the neighbor: in the ZIP code of all requests of the tests. */
async function priced(added: (typeof GATE)[] = []) {
  const { id, number } = await sendThreeYards(app)
  const { revision } = await quoteRequest(app, number, { added, conditions: DEPOSIT, laborHours: '1' })
  return { id, number, revision }
}

async function billed(id: number) {
  await markDone(app, id)
  const number = await makeBill(app.deps, 1, id, { before: 0, added: [], total: null })
  const bill = await app.db
    .selectFrom('bill')
    .select(['id', 'total', 'tax', 'undoes'])
    .where('number', '=', number)
    .executeTakeFirstOrThrow()
  return { number, ...bill, lines: await linesOfBill(bill.id) }
}

async function linesOfBill(id: number) {
  const lines = await app.db
    .selectFrom('bill_line')
    .select(['kind', 'slug', 'amount'])
    .where('bill_id', '=', id)
    .orderBy('position')
    .execute()
  return lines.map(({ kind, slug, amount }) => `${slug === 'near' ? slug : kind} ${amount}`)
}

const sumOf = (lines: string[]) =>
  lines.reduce((cents, line) => cents + Math.round(Number(line.split(' ')[1]) * 100), 0) / 100

test('the deposit and the bill are of the discounted price, and tax is on it', async () => {
  await chargeTax(app)
  await holdDays(true)
  const { id, number, revision } = await priced()
  await acceptAndBook(app.deps, id, { revision, ...BY_CAROL }, NEAR)
  // 5 % of 300 off; 8.25 % of 285 is 23.5125.
  expect(await linesOf(app, id)).toEqual(['finish 300.00', 'other -15.00', 'tax 23.51', '308.51'])
  // A quarter of 308.51 is 77.1275.
  const own = (await findLinkPath(app.db, app.deps.secretKey, 'own page', id))!
  expect(wordsOf((await app.browser().get(own)).text)).toContain('$77.13')
  await receiveDeposit(app.deps, 1, id, { nth: 1, amount: '77.13', day: '2026-03-02', way: 'cash' })

  const bill = await billed(id)
  expect(bill.lines).toEqual(['finish 300.00', 'near -15.00', 'tax 23.51'])
  expect([bill.total, sumOf(bill.lines)]).toEqual(['308.51', 308.51])
  expect(bill.tax).toMatchObject({ taxed: '285.00', untaxed: '0.00', amount: '23.51' })
  const page = wordsOf((await app.browser().get(`${own}/bills/${bill.number}`)).text)
  expect(page).toContain('Discount: we’re in your area that day')
  // 308.51 less 77.13.
  expect(page).toContain('Still to pay $231.38')
  const paper = await app.browser().get(`${own}/bills/${bill.number}/bill.pdf`).responseType('blob')
  const read = (await readPdf(paper.body)).text.replace(/\s+/g, ' ')
  expect(read).toContain('$231.38')
  expect(wordsOf((await owner.get('/queue')).text)).toContain(`$231.38 still to pay`)
  expect(wordsOf((await owner.get(`/queue/${number}`)).text)).toContain('$308.51')

  const memo = await creditBill(app.deps, 1, bill.number, 'Wrong day')
  const undone = await app.db
    .selectFrom('bill')
    .select(['id', 'total'])
    .where('number', '=', memo)
    .executeTakeFirstOrThrow()
  expect(undone.total).toBe('-308.51')
  expect(await linesOfBill(undone.id)).toEqual(['finish -300.00', 'near 15.00', 'tax -23.51'])
})

test('where the deposit comes first, more came than the discounted price asks for, and the bill counts all of it', async () => {
  await chargeTax(app)
  await holdDays(false)
  const { id, revision } = await priced()
  await acceptQuote(app.deps, id, { revision, ...BY_CAROL })
  await expect(bookDay(app.deps, id, NEAR)).rejects.toMatchObject({ key: 'deposit.first' })
  // A quarter of 324.75 is 81.1875.
  await receiveDeposit(app.deps, 1, id, { nth: 1, amount: '81.19', day: '2026-03-02', way: 'cash' })
  await bookDay(app.deps, id, NEAR)
  expect((await findAcceptedQuote(app.db, id))!.total).toBe('308.51')
  const bill = await billed(id)
  const own = (await findLinkPath(app.db, app.deps.secretKey, 'own page', id))!
  // 308.51 less 81.19.
  expect(wordsOf((await app.browser().get(`${own}/bills/${bill.number}`)).text)).toContain(
    'Still to pay $227.32',
  )
})

test('a change order keeps it, shows the difference, and tax is on what of it falls on taxed lines', async () => {
  await chargeTax(app, { taxed: { upkeep: taxedOnly('finish'), new: taxedOnly('finish') } })
  await holdDays(true)
  const { id, number, revision } = await priced()
  await acceptAndBook(app.deps, id, { revision, ...BY_CAROL }, NEAR)
  const page = await owner.get(`/queue/${number}/quote`)
  expect(page.text).toMatch(/value="-15(\.00)?"/)
  const kept = { description: WORDS, amount: '-15.00', reason: WORDS }
  const change = await quoteRequest(app, number, {
    added: [GATE, kept],
    conditions: DEPOSIT,
    laborHours: '1.5',
  })
  // Of 400, the gate's 100 aren't taxed, nor its quarter of the 15 off: 8.25 % of 288.75 is 23.821875.
  expect(await linesOf(app, id)).toEqual([
    'finish 300.00',
    'other 100.00',
    'other -15.00',
    'tax 23.82',
    '408.82',
  ])
  const booking = wordsOf((await app.browser().get(change.bookingPath)).text)
  expect(booking).toContain('$408.82')
  // 408.82 less 308.51.
  expect(booking).toContain('$100.31')
  await acceptQuote(app.deps, id, { revision: change.revision, ...BY_CAROL })
  const bill = await billed(id)
  expect(bill.lines).toEqual(['finish 300.00', 'other 100.00', 'near -15.00', 'tax 23.82'])
  expect([bill.total, sumOf(bill.lines)]).toEqual(['408.82', 408.82])
  expect(bill.tax).toMatchObject({ taxed: '288.75', untaxed: '96.25' })
})

test('called off, the deposit of the discounted price waits to be settled', async () => {
  await chargeTax(app)
  await holdDays(true)
  const { id, number, revision } = await priced()
  await acceptAndBook(app.deps, id, { revision, ...BY_CAROL }, NEAR)
  await receiveDeposit(app.deps, 1, id, { nth: 1, amount: '77.13', day: '2026-03-02', way: 'cash' })
  await callOff(app.deps, id, 'Moving')
  const row = await app.db
    .selectFrom('quote_request')
    .select(['stage', 'step'])
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  expect(row).toEqual({ stage: 'called off', step: 'Collect' })
  expect(wordsOf((await owner.get(`/queue/${number}`)).text)).toContain('$77.13')
})

/** Whether days are held before a deposit is there. */
async function holdDays(holdsDay: boolean) {
  const { deposits } = await app.db.selectFrom('business').select('deposits').executeTakeFirstOrThrow()
  await app.db
    .updateTable('business')
    .set({ deposits: json({ ...deposits, holdsDay }) })
    .execute()
}
