import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { bookDay } from '../../src/bookings/booking.ts'
import { callOff } from '../../src/bookings/call-off.ts'
import { receiveDeposit, undoPayment } from '../../src/payments/receive.ts'
import { settleDeposit } from '../../src/payments/settle.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { standing } from '../helpers/bookings.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { accepted, PAID, paymentsOf, QUARTER, wordsOf } from './asking.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

const stepOf = async (id: number) =>
  (await app.db.selectFrom('quote_request').select('step').where('id', '=', id).executeTakeFirstOrThrow())
    .step

describe('received', () => {
  test('it is due, then noted once, and its homeowner gets a receipt and reads of it', async () => {
    const { id, number, path, ownPath } = await accepted(app)
    expect(wordsOf((await owner.get('/queue')).text)).toContain('deposit due: $67.50')
    expect(wordsOf((await app.browser().get(ownPath)).text)).toContain('Your deposit of $67.50 is due now.')
    const form = { nth: '1', depositReceived: '67.50', depositDay: '2026-03-02', depositWay: 'check' }
    await owner.post(`/queue/${number}/deposit`).type('form').send(form).expect(303)
    await owner.post(`/queue/${number}/deposit`).type('form').send(form).expect(303)
    const stale = await owner
      .post(`/queue/${number}/deposit`)
      .type('form')
      .send({ ...form, depositReceived: '10' })
    expect(stale.status).toBe(422)
    expect(stale.text).toContain('Another payment was noted')
    expect(await paymentsOf(app, id)).toEqual([{ kind: 'deposit', amount: '67.50', undoes: null }])
    const { verbs, mails } = await standing(app, id)
    expect(verbs.filter(verb => verb === 'deposit received')).toHaveLength(1)
    expect(mails.filter(kind => kind === 'deposit-received')).toHaveLength(1)
    expect(wordsOf((await app.browser().get(path)).text)).toContain('We’ve received your deposit of $67.50.')
    const page = wordsOf((await owner.get(`/queue/${number}`)).text)
    expect(page).toContain('Deposit: $67.50, received.')
    expect(page).toContain('Deposit received: $67.50, check')
  })

  test('what was noted by mistake is undone by a row of its own, once', async () => {
    const { id, number } = await accepted(app)
    await receiveDeposit(app.deps, 1, id, PAID)
    const { id: wrong } = await app.db
      .selectFrom('payment')
      .select('id')
      .where('quote_request_id', '=', id)
      .executeTakeFirstOrThrow()
    await owner.post(`/queue/${number}/payments/${wrong}/undo`).expect(303)
    await undoPayment(app.deps, 1, id, wrong)
    expect(await paymentsOf(app, id)).toEqual([
      { kind: 'deposit', amount: '67.50', undoes: null },
      { kind: 'deposit', amount: '-67.50', undoes: wrong },
    ])
    await expect(undoPayment(app.deps, 1, id, wrong + 1)).rejects.toMatchObject({ key: 'deposit.no-such' })
    await expect(undoPayment(app.deps, 1, id + 1, wrong)).rejects.toThrow()
  })

  test('the database refuses what can’t be', async () => {
    const { id } = await accepted(app)
    await receiveDeposit(app.deps, 1, id, PAID)
    const row = {
      quote_request_id: id,
      day: '2026-03-02',
      way: 'cash' as const,
      made_at: app.deps.now().toString(),
      made_by: 1,
    }
    const insert = (values: { nth: number; kind: 'deposit' | 'refund'; amount: string; undoes?: number }) =>
      app.db
        .insertInto('payment')
        .values({ ...row, ...values })
        .execute()
    await expect(insert({ nth: 1, kind: 'deposit', amount: '1.00' })).rejects.toThrow()
    await expect(insert({ nth: 2, kind: 'deposit', amount: '-1.00' })).rejects.toThrow()
    await expect(insert({ nth: 2, kind: 'refund', amount: '1.00' })).rejects.toThrow()
    await expect(insert({ nth: 2, kind: 'refund', amount: '-67.51' })).rejects.toThrow()
    await expect(app.db.updateTable('payment').set({ amount: '1.00' }).execute()).rejects.toThrow()
    await expect(app.db.deleteFrom('payment').execute()).rejects.toThrow()
  })

  test.each([
    [{ depositReceived: '' }, 'Say how much was paid.'],
    [{ depositReceived: '0' }, 'Give an amount above zero.'],
    [{ depositDay: '2026-03-03' }, 'That day hasn’t come yet.'],
    [{ depositDay: 'today' }, 'Say on which day.'],
    [{ depositWay: 'shells' }, 'Say how it was paid.'],
  ])('%j is refused beside its field', async (instead, sentence) => {
    const { id, number } = await accepted(app)
    const form = { nth: '1', depositReceived: '5', depositDay: '2026-03-02', depositWay: 'cash', ...instead }
    const page = await owner.post(`/queue/${number}/deposit`).type('form').send(form).expect(422)
    expect(page.text).toContain(sentence)
    expect(await paymentsOf(app, id)).toEqual([])
  })

  test('days before the work: due once the day is near, and not before', async () => {
    const { id, number } = await accepted(app, {
      ...QUARTER,
      deposit: { by: 'money', value: '50.00', cap: null, daysBefore: 7 },
    })
    await bookDay(app.deps, id, '2026-03-20')
    const page = wordsOf((await owner.get(`/queue/${number}`)).text)
    expect(page).toContain('Deposit: $50.00, due Friday, March 13.')
    expect(wordsOf((await owner.get('/queue')).text)).not.toContain('deposit due: $50.00')
  })
})

describe('settled', () => {
  test('a request that ends with money held stays under Collect until somebody says what becomes of it', async () => {
    const { id, number } = await accepted(app)
    await receiveDeposit(app.deps, 1, id, PAID)
    const early = settleDeposit(app.deps, 1, id, { back: '0.00', day: '2026-03-02', way: 'cash' })
    await expect(early).rejects.toMatchObject({ key: 'deposit.not-ended' })
    await callOff(app.deps, id, '')
    expect(await stepOf(id)).toBe('Collect')
    expect(wordsOf((await owner.get('/queue')).text)).toContain('$67.50 held: settle it')
    const form = { back: '40', backDay: '2026-03-02', backWay: 'check' }
    const more = await owner
      .post(`/queue/${number}/deposit/settle`)
      .type('form')
      .send({ ...form, back: '67.51' })
    expect(more.status).toBe(422)
    await owner.post(`/queue/${number}/deposit/settle`).type('form').send(form).expect(303)
    await owner.post(`/queue/${number}/deposit/settle`).type('form').send(form).expect(303)
    const otherwise = await owner
      .post(`/queue/${number}/deposit/settle`)
      .type('form')
      .send({ ...form, backWay: 'cash' })
    expect([otherwise.status, otherwise.text.includes('settled the deposit another way')]).toEqual([
      422,
      true,
    ])
    expect(await stepOf(id)).toBeNull()
    expect((await paymentsOf(app, id)).map(({ kind, amount }) => `${kind} ${amount}`)).toEqual([
      'deposit 67.50',
      'refund -40.00',
    ])
    expect(wordsOf((await owner.get(`/queue/${number}`)).text)).toContain(
      'Settled: $27.50 kept, $40.00 given back.',
    )
  })

  test('nothing was paid: it is off the list at once', async () => {
    const { id } = await accepted(app)
    await callOff(app.deps, id, '')
    expect(await stepOf(id)).toBeNull()
  })
})
