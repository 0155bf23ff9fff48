import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { json } from '../../src/db/json.ts'
import type { DepositSettings } from '../../src/db/schema/payments.ts'
import { receiveDeposit } from '../../src/payments/receive.ts'
import { findNewestQuote } from '../../src/quotes/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptForm, post, standing } from '../helpers/bookings.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { confirmQuote } from '../helpers/quotes.ts'
import { sendRequest } from '../helpers/requests.ts'
import { asking, BEDS, PAID, wordsOf } from './asking.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterEach(() => allow({}))
afterAll(() => app.close())

const ALLOWED: DepositSettings = { cap: null, holdsDay: true, notice: { en: '', es: '' } }
const FORM = { do: 'confirm', laborHours: '3', note: '' }

const allow = (instead: Partial<DepositSettings>) =>
  app.db
    .updateTable('business')
    .set({ deposits: json({ ...ALLOWED, ...instead }) })
    .execute()

describe('asked for', () => {
  test('none is, until the owner asks for one on a price', async () => {
    const { id, number } = await sendRequest(app, { told: BEDS })
    await confirmQuote(owner, number, FORM)
    expect((await findNewestQuote(app.db, id))!.conditions).toBeNull()
  })

  test('a share, shown with the price and part of what is accepted', async () => {
    const { id, number } = await sendRequest(app, { told: BEDS })
    await confirmQuote(owner, number, { ...FORM, depositAmount: '25%', depositDays: '7' })
    const { conditions } = (await findNewestQuote(app.db, id))!
    expect(conditions!.deposit).toEqual({ by: 'share', value: '0.25', cap: null, daysBefore: 7 })
    const { path } = await asking(app)
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
    const { id, number } = await sendRequest(app, { told: BEDS })
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
    const { number } = await sendRequest(app, { told: BEDS })
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
    const { id, path } = await asking(app, {
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

test('where no day is held without it, the day is chosen once it is here', async () => {
  await allow({ holdsDay: false })
  const { id, path } = await asking(app)
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
