import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { acceptQuote, bookDay } from '../../src/bookings/booking.ts'
import { callOff } from '../../src/bookings/call-off.ts'
import { json } from '../../src/db/json.ts'
import type { Conditions, DepositSettings } from '../../src/db/schema.ts'
import { receiveDeposit, undoPayment } from '../../src/payments/receive.ts'
import { settleDeposit } from '../../src/payments/settle.ts'
import { findNewestQuote } from '../../src/quotes/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptForm, post, standing } from '../helpers/bookings.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { confirmQuote, quoteRequest } from '../helpers/quotes.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
const ALLOWED: DepositSettings = { cap: null, holdsDay: true, notice: { en: '', es: '' } }

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterEach(() => allow({}))
afterAll(() => app.close())

// 3 yd³ of shredded wood at 90 are 270.00; a quarter of it is 67.50.
const beds = told(bedTold({ sizes: { length: '27 ft', width: '12 ft' } }))
const QUARTER: Conditions = {
  deposit: { by: 'share', value: '0.25', cap: null, daysBefore: null },
  notice: null,
  waits: false,
}
const FORM = { do: 'confirm', laborHours: '3', note: '' }
const PAID = { nth: 1, amount: '67.50', day: '2026-03-02', way: 'check' } as const

const allow = (instead: Partial<DepositSettings>) =>
  app.db
    .updateTable('business')
    .set({ deposits: json({ ...ALLOWED, ...instead }) })
    .execute()
const wordsOf = (html: string) => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')

async function asking(conditions: Conditions = QUARTER) {
  const { number, ownPath } = await sendRequest(app, { told: beds })
  const { id, bookingPath: path } = await quoteRequest(app, number, { conditions })
  return { id, number, path, ownPath }
}

async function accepted(conditions?: Conditions) {
  const asked = await asking(conditions)
  await acceptQuote(app.deps, asked.id, { revision: 1, typedName: 'Carol Reyes' })
  return asked
}

const paymentsOf = (id: number) =>
  app.db
    .selectFrom('payment')
    .select(['kind', 'amount', 'undoes'])
    .where('quote_request_id', '=', id)
    .orderBy('nth')
    .execute()
const stepOf = async (id: number) =>
  (await app.db.selectFrom('quote_request').select('step').where('id', '=', id).executeTakeFirstOrThrow())
    .step

describe('asked for', () => {
  test('none is, until the owner asks for one on a price', async () => {
    const { id, number } = await sendRequest(app, { told: beds })
    await confirmQuote(owner, number, FORM)
    expect((await findNewestQuote(app.db, id))!.conditions).toBeNull()
  })

  test('a share, shown with the price and part of what is accepted', async () => {
    const { id, number } = await sendRequest(app, { told: beds })
    await confirmQuote(owner, number, { ...FORM, depositAmount: '25%', depositDays: '7' })
    const { conditions } = (await findNewestQuote(app.db, id))!
    expect(conditions!.deposit).toEqual({ by: 'share', value: '0.25', cap: null, daysBefore: 7 })
    const { path } = await asking()
    expect(wordsOf((await app.browser().get(path)).text)).toContain(
      'A deposit of $67.50 is due when you accept.',
    )
    const check = await post(app, `${path}/check`, acceptForm()).expect(200)
    expect(wordsOf(check.text)).toContain('A deposit of $67.50 is due when you accept.')
    const spanish = await app.browser().get(path).set('accept-language', 'es')
    expect(wordsOf(spanish.text)).toContain('un anticipo de $67.50')
  })

  test.each([
    [{ depositAmount: 'a quarter' }, 'Give a percentage, such as 25%, or an amount, such as 100.'],
    [{ depositAmount: '101%' }, 'Give a percentage, such as 25%, or an amount, such as 100.'],
    [{ depositAmount: '50', depositDays: '61' }, 'Give up to 60 days.'],
    [{ depositAmount: '28' }, 'Your cap is 10%. Of this price that’s $27.00.'],
    [{ cancelNotice: 'yes' }, 'Write your notice first'],
  ])('%j is refused beside its field', async (instead, sentence) => {
    await allow({ cap: { by: 'share', value: '0.1' } })
    const { id, number } = await sendRequest(app, { told: beds })
    const page = await confirmQuote(owner, number, { ...FORM, ...instead })
    expect(page.status).toBe(422)
    expect(page.text).toContain(sentence)
    expect(await findNewestQuote(app.db, id)).toBeUndefined()
  })

  test('the owner sets cap and notice, and says that no day is held without one', async () => {
    const form = { depositCap: '10%', depositFirst: 'yes', noticeEn: 'You may cancel.', noticeEs: '' }
    await owner.post('/settings/prices').type('form').send(form).expect(303)
    const page = await owner.get('/settings/prices')
    expect(page.text).toContain('value="10%"')
    expect(page.text).toContain('16 CFR Part 429')
    const { number } = await sendRequest(app, { told: beds })
    const quoted = await confirmQuote(owner, number, {
      ...FORM,
      depositAmount: '20',
      cancelNotice: 'yes',
      waits: 'yes',
    })
    expect(quoted.status).toBe(303)
    const wrong = await owner
      .post('/settings/prices')
      .type('form')
      .send({ ...form, depositCap: 'some' })
    expect(wrong.status).toBe(422)
  })

  test('no work begins before three business days have passed', async () => {
    // The clock stands at Monday, March 2.
    const { id, path } = await asking({
      deposit: null,
      notice: { en: 'You may cancel.', es: '' },
      waits: true,
    })
    const form = await app.browser().get(`${path}/accept`).expect(200)
    expect(form.text).not.toContain('Thursday, March 5')
    expect(form.text).toContain('Friday, March 6')
    const early = await post(app, `${path}/accept`, acceptForm({ day: '2026-03-05' }))
    expect(early.status).toBe(409)
    const page = await app.browser().get(path).expect(200)
    expect(page.text).toContain('You may cancel.')
    await post(app, `${path}/day`, { day: '2026-03-05' }).expect(409)
    await post(app, `${path}/day`, { day: '2026-03-06' }).expect(303)
    expect((await standing(app, id)).days[0]!.day).toBe('2026-03-06')
  })
})

describe('received', () => {
  test('it is due, then noted once, and its homeowner gets a receipt and reads of it', async () => {
    const { id, number, path, ownPath } = await accepted()
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
    expect(await paymentsOf(id)).toEqual([{ kind: 'deposit', amount: '67.50', undoes: null }])
    const { verbs, mails } = await standing(app, id)
    expect(verbs.filter(verb => verb === 'deposit received')).toHaveLength(1)
    expect(mails.filter(kind => kind === 'deposit-received')).toHaveLength(1)
    expect(wordsOf((await app.browser().get(path)).text)).toContain('We’ve received your deposit of $67.50.')
    const page = wordsOf((await owner.get(`/queue/${number}`)).text)
    expect(page).toContain('Deposit: $67.50, received.')
    expect(page).toContain('Deposit received: $67.50, check')
  })

  test('what was noted by mistake is undone by a row of its own, once', async () => {
    const { id, number } = await accepted()
    await receiveDeposit(app.deps, 1, id, PAID)
    const { id: wrong } = await app.db
      .selectFrom('payment')
      .select('id')
      .where('quote_request_id', '=', id)
      .executeTakeFirstOrThrow()
    await owner.post(`/queue/${number}/payments/${wrong}/undo`).expect(303)
    await undoPayment(app.deps, 1, id, wrong)
    expect(await paymentsOf(id)).toEqual([
      { kind: 'deposit', amount: '67.50', undoes: null },
      { kind: 'deposit', amount: '-67.50', undoes: wrong },
    ])
    await expect(undoPayment(app.deps, 1, id, wrong + 1)).rejects.toMatchObject({ key: 'deposit.no-such' })
    await expect(undoPayment(app.deps, 1, id + 1, wrong)).rejects.toThrow()
  })

  test('the database refuses what can’t be', async () => {
    const { id } = await accepted()
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
    const { id, number } = await accepted()
    const form = { nth: '1', depositReceived: '5', depositDay: '2026-03-02', depositWay: 'cash', ...instead }
    const page = await owner.post(`/queue/${number}/deposit`).type('form').send(form).expect(422)
    expect(page.text).toContain(sentence)
    expect(await paymentsOf(id)).toEqual([])
  })

  test('days before the work: due once the day is near, and not before', async () => {
    const { id, number } = await accepted({
      ...QUARTER,
      deposit: { by: 'money', value: '50.00', cap: null, daysBefore: 7 },
    })
    await bookDay(app.deps, id, '2026-03-20')
    const page = wordsOf((await owner.get(`/queue/${number}`)).text)
    expect(page).toContain('Deposit: $50.00, due Friday, March 13.')
    expect(wordsOf((await owner.get('/queue')).text)).not.toContain('deposit due: $50.00')
  })
})

test('where no day is held without it, the day is chosen once it is here', async () => {
  await allow({ holdsDay: false })
  const { id, path } = await asking()
  const form = await app.browser().get(`${path}/accept`).expect(200)
  expect(form.text).toContain('You can choose a day once we have your deposit.')
  await post(app, `${path}/accept`, acceptForm({ day: undefined })).expect(303)
  const refused = await post(app, `${path}/day`, { day: '2026-03-06' }).expect(409)
  expect(refused.text).toContain('You can choose a day once we have your deposit.')
  expect(await standing(app, id)).toMatchObject({ stage: 'quoted', days: [] })
  await receiveDeposit(app.deps, 1, id, PAID)
  await post(app, `${path}/day`, { day: '2026-03-06' }).expect(303)
  expect((await standing(app, id)).stage).toBe('booked')
})

describe('settled', () => {
  test('a request that ends with money held stays under Collect until somebody says what becomes of it', async () => {
    const { id, number } = await accepted()
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
    expect(await stepOf(id)).toBeNull()
    expect((await paymentsOf(id)).map(({ kind, amount }) => `${kind} ${amount}`)).toEqual([
      'deposit 67.50',
      'refund -40.00',
    ])
    expect(wordsOf((await owner.get(`/queue/${number}`)).text)).toContain(
      'Settled: $27.50 kept, $40.00 given back.',
    )
  })

  test('nothing was paid: it is off the list at once', async () => {
    const { id } = await accepted()
    await callOff(app.deps, id, '')
    expect(await stepOf(id)).toBeNull()
  })
})
