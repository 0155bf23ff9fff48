import { afterAll, beforeAll, expect, test } from 'vitest'
import { acceptQuote, bookDay } from '../../src/bookings/booking.ts'
import { declineQuote } from '../../src/bookings/not-this-time.ts'
import { withdrawChange } from '../../src/bookings/withdraw-change.ts'
import { findNewestQuote } from '../../src/quotes/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, acceptForm, post, standing } from '../helpers/bookings.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { confirmQuote, quoteRequest } from '../helpers/quotes.ts'

let app: TestApp
let owner: Browser
let helper: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  helper = await helperBrowser(app)
})
afterAll(() => app.close())

/** Booked for so many hours of the eight that a day has. */
async function bookedOn(day: string, laborHours = '3') {
  const accepted = await acceptedRequest(app, laborHours)
  await bookDay(app.deps, accepted.id, day)
  return accepted
}

const gate = { description: 'A second gate', amount: '40.00', reason: 'found on the day' }
const takenOf = async (day: string) =>
  (await app.db.selectFrom('work_day').select('taken_hours').where('day', '=', day).executeTakeFirst())
    ?.taken_hours

test('a change shows the difference, counts once accepted, and its hours follow onto the day', async () => {
  const { id, number, path } = await bookedOn('2026-03-16')
  await quoteRequest(app, number, { laborHours: '5', added: [gate] })
  const page = await app.browser().get(path).expect(200)
  expect(page.text).toContain('A change to your job')
  const handOver = await owner.get(`/queue/${number}/hand-over`).expect(200)
  expect(handOver.text).toContain('something about your job has changed')
  expect(handOver.text).not.toContain('choose a day')
  expect(page.text).toMatch(
    /A second gate<span class="note">Before: nothing\. Now: \$40\.00\.<\/span><\/th><td class="amount">\+\$40\.00/,
  )
  expect((await standing(app, id)).days).toEqual([{ day: '2026-03-16', hours: '3.00' }])
  const form = acceptForm({ revision: '2', day: undefined })
  const check = await post(app, `${path}/check`, form).expect(200)
  const digest = /name="digest" value="(\w+)"/.exec(check.text)![1]
  await post(app, `${path}/accept`, { ...form, digest }).expect(303)
  expect(await standing(app, id)).toMatchObject({
    stage: 'booked',
    accepted: [{ revision: 1 }, { revision: 2 }],
    days: [{ day: '2026-03-16', hours: '5.00' }],
  })
  expect(await takenOf('2026-03-16')).toBe('5.00')
  await post(app, `${path}/accept`, { ...form, digest }).expect(303)
  expect((await standing(app, id)).accepted).toHaveLength(2)
})

test('a change that leaves the total alone shows no sign, and the hint of a question before deciding goes once accepted', async () => {
  const { number, path } = await bookedOn('2026-03-27')
  const booked = await app.browser().get(path).expect(200)
  expect(booked.text).not.toContain('before you decide')
  await quoteRequest(app, number, { laborHours: '5' })
  const page = await app.browser().get(path).expect(200)
  expect(page.text).toContain('<td class="amount">$0.00</td>')
  expect(page.text).not.toContain('+$0.00')
  expect(page.text).toContain('before you decide')
})

test('fewer hours give room back', async () => {
  const { id, number } = await bookedOn('2026-03-17', '6')
  await quoteRequest(app, number, { laborHours: '2' })
  await acceptQuote(app.deps, id, { revision: 2, typedName: 'Carol Reyes' })
  expect((await standing(app, id)).days).toEqual([{ day: '2026-03-17', hours: '2.00' }])
  expect(await takenOf('2026-03-17')).toBe('2.00')
})

test('where the day has no room the acceptance stands, the hours stay, and the staff read it', async () => {
  const { id, number } = await bookedOn('2026-03-18', '4')
  await bookedOn('2026-03-18', '3')
  await quoteRequest(app, number, { laborHours: '7' })
  await acceptQuote(app.deps, id, { revision: 2, typedName: 'Carol Reyes' })
  const { accepted, days, verbs } = await standing(app, id)
  expect(accepted).toHaveLength(2)
  expect(days).toEqual([{ day: '2026-03-18', hours: '4.00' }])
  expect(verbs).toContain('day too full')
  expect((await owner.get(`/queue/${number}`)).text).toContain('The day has no room for 7.00 labor hours')
})

test('declined, the work goes on by what was accepted last', async () => {
  const { id, number, path } = await bookedOn('2026-03-19')
  await quoteRequest(app, number, { added: [gate] })
  await post(app, `${path}/not-this-time`, { reason: 'price', words: '' }).expect(303)
  await post(app, `${path}/not-this-time`, { reason: 'price', words: '' }).expect(303)
  const { stage, verbs, days } = await standing(app, id)
  expect([stage, days.length]).toEqual(['booked', 1])
  expect(verbs.filter(verb => verb === 'change declined')).toHaveLength(1)
  const page = await app.browser().get(path).expect(200)
  expect(page.text).not.toContain('A second gate')
  expect(page.text).toContain('Your day is booked')
  expect((await owner.get(`/queue/${number}`)).text).toContain('declined the change')
})

test('only the newest change counts, and one past its day counts no more', async () => {
  const { id, number, path } = await bookedOn('2026-03-20')
  await quoteRequest(app, number, { added: [gate] })
  await quoteRequest(app, number, { added: [gate, gate] })
  await post(app, `${path}/accept`, acceptForm({ revision: '2', day: undefined })).expect(409)
  app.setClock('2026-05-20T15:00:00Z')
  try {
    await post(app, `${path}/accept`, acceptForm({ revision: '3', day: undefined })).expect(303)
  } finally {
    app.setClock('2026-03-02T15:00:00Z')
  }
  expect((await standing(app, id)).accepted).toEqual([{ revision: 1, typed_name: 'Carol Reyes' }])
})

test('the crew asks for a change without a word of money, once, and the owner is told', async () => {
  const { id, number } = await bookedOn('2026-03-23')
  const form = await helper.get(`/days/jobs/${number}/change`).expect(200)
  expect(form.text).not.toContain('$')
  const ask = (words: string) => helper.post(`/days/jobs/${number}/change`).type('form').send({ words })
  await ask('').expect(422)
  await ask('A bed behind the shed too').expect(303)
  await ask('A bed behind the shed too').expect(303)
  const { verbs, mails } = await standing(app, id)
  expect(verbs.filter(verb => verb === 'change asked')).toHaveLength(1)
  expect(mails).toContain('change-asked-staff')
  expect((await owner.get(`/queue/${number}`)).text).toContain('asks for a change: A bed behind the shed too')
  await quoteRequest(app, number, { added: [gate] })
  expect((await owner.get(`/queue/${number}`)).text).not.toContain('asks for a change')
})

test('on the phone of the staff it is noted whose it was', async () => {
  const { id, number, path } = await bookedOn('2026-03-24')
  await quoteRequest(app, number, { added: [gate] })
  await owner
    .post(`${path}/accept`)
    .type('form')
    .send(acceptForm({ revision: '2', day: undefined }))
    .expect(303)
  const rows = await app.db
    .selectFrom('acceptance')
    .innerJoin('quote', 'quote.id', 'quote_id')
    .select(['revision', 'taken_by'])
    .where('quote_request_id', '=', id)
    .orderBy('revision')
    .execute()
  expect(rows).toEqual([
    { revision: 1, taken_by: null },
    { revision: 2, taken_by: 1 },
  ])
})

test('a change that waits is taken back: the work goes as accepted, and it can’t be accepted any more', async () => {
  const { id, number, path } = await bookedOn('2026-03-26')
  await quoteRequest(app, number, { laborHours: '5', added: [gate] })
  const takeBack = () => owner.post(`/queue/${number}/change/withdraw`).type('form').send({ revision: '2' })
  await takeBack().expect(303)
  await takeBack().expect(303)
  expect((await standing(app, id)).verbs.filter(verb => verb === 'change withdrawn')).toHaveLength(1)
  const page = await app.browser().get(path).expect(200)
  expect(page.text).not.toContain('A second gate')
  const refused = await post(app, `${path}/accept`, acceptForm({ revision: '2', day: undefined }))
  expect([303, 409]).toContain(refused.status)
  await expect(acceptQuote(app.deps, id, { revision: 2, typedName: 'Carol Reyes' })).rejects.toMatchObject({
    key: 'change.withdrawn',
  })
  expect((await standing(app, id)).accepted).toEqual([{ revision: 1, typed_name: 'Carol Reyes' }])
  const shown = await owner.get(`/queue/${number}`)
  expect(shown.text).toContain('You took the change to')
  const handOver = (await owner.get(`/queue/${number}/hand-over`).expect(200)).text
  expect(handOver).toContain('You took this change back, so there’s nothing to send.')
  expect(handOver).not.toMatch(/<textarea|I sent it/)
})

test('what was accepted can’t be taken back, nor what isn’t the newest, and a declined one can', async () => {
  const { id, number } = await bookedOn('2026-03-30', '1')
  await expect(withdrawChange(app.deps, 1, id, 1)).rejects.toMatchObject({ key: 'change.accepted' })
  await quoteRequest(app, number, { laborHours: '2' })
  await expect(withdrawChange(app.deps, 1, id, 1)).rejects.toMatchObject({ key: 'quote.overtaken' })
  await declineQuote(app.deps, id, { reason: 'price', words: '' })
  await withdrawChange(app.deps, 1, id, 2)
  const insert = app.db.insertInto('acceptance').values({
    quote_id: (await findNewestQuote(app.db, id))!.id,
    typed_name: 'X',
    accepted_at: app.deps.now().toString(),
  })
  await expect(insert.execute()).rejects.toThrow('taken back')
})

test('a change without any difference isn’t sent, and the form says so', async () => {
  const { id, number } = await bookedOn('2026-03-31', '2')
  const page = await confirmQuote(owner, number, { do: 'confirm', laborHours: '2', note: '' })
  expect(page.status).toBe(422)
  expect(page.text).toContain('Nothing differs from what they accepted')
  expect((await findNewestQuote(app.db, id))!.revision).toBe(1)
  const noted = await confirmQuote(owner, number, { do: 'confirm', laborHours: '2', note: 'And the gate' })
  expect(noted.status).toBe(303)
})
