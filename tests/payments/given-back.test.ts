import { afterAll, beforeAll, expect, onTestFinished, test } from 'vitest'
import { writeLetter } from '../../src/letters/letter.ts'
import { messages } from '../../src/messages.ts'
import { findOutboxMessage } from '../../src/outbox/queries.ts'
import { giveBack } from '../../src/payments/pay.ts'
import { findPayments } from '../../src/payments/queries.ts'
import { undoPayment } from '../../src/payments/receive.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { billedRequest, pay } from '../helpers/bills.ts'
import { depositRequest } from '../helpers/bookings.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
})
afterAll(() => app.close())

const TODAY = { day: '2026-03-02' }

/** The receipts of what went back, as they would be sent now. */
async function letters(id: number) {
  const rows = await app.db
    .selectFrom('outbox')
    .select(['id', 'once'])
    .where('quote_request_id', '=', id)
    .where('kind', '=', 'given-back')
    .execute()
  // Each names its payment by its number.
  rows.sort((a, b) => Number(a.once!.split(' ')[1]) - Number(b.once!.split(' ')[1]))
  return Promise.all(
    rows.map(async row => writeLetter({ ...app.deps, messages }, (await findOutboxMessage(app.db, row.id))!)),
  )
}

const speaks = (id: number, language: 'en' | 'es') =>
  app.db.updateTable('quote_request').set({ language }).where('id', '=', id).execute()

test('a deposit given back as a request is canceled has a receipt, once', async () => {
  const { id, number } = await depositRequest(app)
  const form = {
    whyCanceled: 'The truck broke',
    fate: 'part',
    fateBack: '5',
    fateDay: '2026-03-02',
    fateWay: 'check',
  }
  for (const _ of [1, 2]) await owner.post(`/queue/${number}/cancel`).type('form').send(form).expect(303)
  const [letter, ...more] = await letters(id)
  expect(more).toEqual([])
  expect(letter?.subject).toBe(`We gave you money back for ${number}`)
  for (const words of [
    'We gave $5.00 back to you',
    'Given back: $5.00',
    'On: Monday, March 2, 2026',
    'By: Check',
  ])
    expect(letter?.text).toContain(words)
})

test('all of it kept, nothing is said of money given back', async () => {
  const { id, number } = await depositRequest(app)
  const form = { whyCanceled: 'The truck broke', fate: 'kept', fateDay: '2026-03-02', fateWay: 'cash' }
  await owner.post(`/queue/${number}/cancel`).type('form').send(form).expect(303)
  expect(await letters(id)).toEqual([])
})

test('what was paid too much has a receipt as it goes back, in Spanish where that is read', async () => {
  const { id } = await billedRequest(app)
  await pay(app, id, '200.00')
  const back = { nth: 2, amount: '20.00', way: 'cash' as const, ...TODAY }
  for (const _ of [1, 2]) await giveBack(app.deps, 1, id, back)
  await giveBack(app.deps, 1, id, { nth: 3, amount: '30.00', way: 'credit', ...TODAY })
  const [given, kept, ...more] = await letters(id)
  expect(more).toEqual([])
  expect(given?.text).toContain('We gave $20.00 back to you')
  expect(kept?.subject).toMatch(/^Your credit from /)
  expect(kept?.text).toContain('You paid $30.00 too much')
  expect(kept?.text).not.toMatch(/By: /)
  await speaks(id, 'es')
  const [devuelto, guardado] = await letters(id)
  expect(devuelto?.text).toContain('Le devolvimos $20.00')
  expect(devuelto?.text).toContain('Forma de pago: Efectivo')
  expect(guardado?.text).toContain('saldo a su favor')
})

test('noted by mistake and undone, it is written of no more', async () => {
  const { id } = await billedRequest(app)
  await pay(app, id, '200.00')
  await giveBack(app.deps, 1, id, { nth: 2, amount: '20.00', way: 'cash', ...TODAY })
  const [, refund] = await findPayments(app.db, id)
  await undoPayment(app.deps, 1, id, refund!.id)
  expect(await letters(id)).toEqual([null])
})

test('the owner can turn it off', async () => {
  await app.db
    .insertInto('message_choice')
    .values({ name: 'given-back', choice: 'off', days: null })
    .execute()
  onTestFinished(async () => {
    await app.db.deleteFrom('message_choice').where('name', '=', 'given-back').execute()
  })
  const { id } = await billedRequest(app)
  await pay(app, id, '200.00')
  await giveBack(app.deps, 1, id, { nth: 2, amount: '20.00', way: 'cash', ...TODAY })
  const rows = await app.db
    .selectFrom('outbox')
    .select('kind')
    .where('quote_request_id', '=', id)
    .where('kind', '=', 'given-back')
    .execute()
  expect(rows).toEqual([])
})
