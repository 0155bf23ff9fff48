import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { acceptAndBook, bookDay } from '../../src/bookings/booking.ts'
import { callOff } from '../../src/bookings/call-off.ts'
import { moveWork } from '../../src/bookings/move.ts'
import { DayGone } from '../../src/bookings/refusals.ts'
import { sayDay } from '../../src/bookings/week.ts'
import { requireBusiness } from '../../src/business/queries.ts'
import { closeJob } from '../../src/closing/close-job.ts'
import { freeWeeks } from '../../src/days/queries.ts'
import { setRoom } from '../../src/days/work-day.ts'
import { findStartingJobs } from '../../src/loads/queries.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import {
  acceptedRequest,
  acceptForm,
  copyAccepted,
  post,
  quotedRequest,
  standing,
} from '../helpers/bookings.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'

const NOW = '2026-03-02T15:00:00Z'
const STAFF = { kind: 'staff', accountId: 1 } as const
const WEEK = 'week 2026-03-09'

let app: TestApp
let owner: Browser
let ownerId: number

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
  ;({ id: ownerId } = await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow())
  await app.db.updateTable('business').set({ day_choice: 'week' }).execute()
})
afterAll(() => app.close())
afterEach(() => {
  app.setClock(NOW)
})

async function chosen(week: string, hours = '3') {
  const accepted = await acceptedRequest(app, hours)
  await bookDay(app.deps, accepted.id, week)
  return accepted
}
const say = (id: number, day: string, week = WEEK) => sayDay(app.deps, ownerId, id, { week, day })
const inQueue = (id: number) =>
  app.db.selectFrom('quote_request').select(['step', 'due_at']).where('id', '=', id).executeTakeFirstOrThrow()
const daysBooked = async (id: number) => (await standing(app, id)).days.map(({ day }) => day)

describe('works', () => {
  test('a week is chosen, waits under Call for its day, and is told it once', async () => {
    const { id, number, path } = await acceptedRequest(app)
    const page = (await app.browser().get(path)).text
    expect(page).toContain('Which week works for you?')
    expect(page).toContain('Week of March 9')
    expect(page).toContain('tell you 3 days before the week begins at the latest')
    expect(page).not.toContain('Week of March 2<')
    const spanish = await app.browser().get(path).set('accept-language', 'es')
    expect(spanish.text).toContain('Semana del 9 de marzo')
    // Pressed twice.
    const posts = [1, 2].map(() => post(app, `${path}/day`, { day: WEEK }))
    for (const answer of await Promise.all(posts)) expect(answer.status).toBe(303)
    expect(await standing(app, id)).toMatchObject({ stage: 'week chosen', days: [{ hours: '3.00' }] })
    // Until the end of March 6 in Chicago.
    expect(await inQueue(id)).toEqual({ step: 'Call', due_at: '2026-03-07T06:00:00Z' })
    expect((await owner.get('/queue')).text).toContain('the week of March 9: pick the day by Fri, Mar 6')
    expect((await app.browser().get(path)).text).toContain('We’ll mulch your beds in the week of March 9.')
    const own = (await findLinkPath(app.db, app.deps.secretKey, 'own page', id))!
    const ownPage = (await app.browser().get(own)).text
    expect(ownPage).toContain('in the week of March 9, and tell you the day by Friday, March 6')
    const days = (await owner.get('/days')).text
    expect(days).toContain('The week of March 9. Tell them the day by Friday, March 6.')
    expect(days).toContain('Penciled in for its week')
    // Of those of other tests too, whichever came before.
    expect(days).toMatch(
      /<a href="#weeks">(1 week|[1-9]\d* weeks) without a day\. Tell (them|the first) by Fri, Mar 6\.<\/a>/,
    )
    // Nothing is loaded for a day that nobody was told.
    expect(await findStartingJobs(app.db, '2026-03-09', '2026-03-15')).toEqual([])
    const form = { week: WEEK, weekDay: '2026-03-12', back: 'days' }
    for (const _press of [1, 2]) {
      const answer = await owner.post(`/queue/${number}/week`).type('form').send(form)
      expect([answer.status, answer.headers.location]).toEqual([303, '/days'])
    }
    const { stage, verbs, mails, days: said } = await standing(app, id)
    expect([stage, said]).toEqual(['booked', [{ day: '2026-03-12', hours: '3.00' }]])
    expect(verbs.slice(-2)).toEqual(['week chosen', 'day booked'])
    expect(mails.filter(kind => /week|day/.test(kind)).sort()).toEqual([
      'day-booked',
      'week-chosen',
      'week-chosen-staff',
    ])
    expect((await app.browser().get(path)).text).toContain('We’ll mulch your beds on Thursday, March 12')
  })

  test('accepting and choosing a week is one post, and shows by when the day is told before', async () => {
    const { id, path, revision } = await quotedRequest(app)
    const check = await post(app, `${path}/check`, acceptForm({ day: 'week 2026-03-16' }))
    expect(check.text).toContain('The week of March 16. We’ll tell you the day by Friday, March 13.')
    const answer = await post(app, `${path}/accept`, acceptForm({ day: 'week 2026-03-16' }))
    expect(answer.status).toBe(303)
    expect((await standing(app, id)).stage).toBe('week chosen')
    // What is accepted is the same again.
    const accepted = { revision, typedName: 'Carol Reyes' }
    expect((await acceptAndBook(app.deps, id, accepted, 'week 2026-03-16')).as).toBe('week')
  })

  test('after its week, or late, the day is still said', async () => {
    const { id } = await chosen('week 2026-03-23')
    const own = (await findLinkPath(app.db, app.deps.secretKey, 'own page', id))!
    app.setClock('2026-03-21T15:00:00Z')
    expect((await app.browser().get(own)).text).toContain('You should have heard the day by now')
    app.setClock('2026-03-30T15:00:00Z')
    await say(id, '2026-03-31', 'week 2026-03-23')
    expect(await daysBooked(id)).toEqual(['2026-03-31'])
  })
})

describe('room', () => {
  test('ten who choose one week at once get what its five days hold, and nobody a day of it', async () => {
    const { id: one } = await acceptedRequest(app, '8')
    const ten = await copyAccepted(app, one, Array<string>(10).fill('8'))
    const week = 'week 2026-04-06'
    const went = await Promise.allSettled(ten.map(id => bookDay(app.deps, id, week)))
    expect(went.filter(({ status }) => status === 'fulfilled')).toHaveLength(5)
    for (const one of went) if (one.status === 'rejected') expect(one.reason).toBeInstanceOf(DayGone)
    const full = ten.filter((_one, nth) => went[nth]!.status === 'fulfilled')
    const left = ten.find((_one, nth) => went[nth]!.status === 'rejected')!
    const business = await requireBusiness(app.db)
    const [next] = await freeWeeks(app.db, business, '8', '2026-04-06', 1, app.deps.now())
    expect(next?.monday).toBe('2026-04-13')
    const days = await Promise.all(full.map(daysBooked))
    const weekdays = ['06', '07', '08', '09', '10'].map(day => `2026-04-${day}`)
    expect(days.flat().sort()).toEqual(weekdays)
    for (const day of weekdays) {
      await expect(bookDay(app.deps, left, day, STAFF)).rejects.toThrow(DayGone)
      await expect(setRoom(app.deps, business, day, '7')).rejects.toThrow()
    }
    // Whoever cancels gives the room of the week back.
    await callOff(app.deps, full[0]!, '')
    await bookDay(app.deps, left, week)
    expect(await daysBooked(left)).toEqual(days[0])
  })

  test('a job lies within its week, whole days stay free, and a day off is none of them', async () => {
    const business = await requireBusiness(app.db)
    await setRoom(app.deps, business, '2026-04-13', '0')
    await setRoom(app.deps, business, '2026-04-15', '4')
    const { id: short } = await chosen('week 2026-04-13', '3')
    expect(await daysBooked(short)).toEqual(['2026-04-15'])
    // Thirty hours lie on the other days, or in no part of this week: Tuesday to Friday has 4 hours less on Wednesday.
    const { id: long } = await acceptedRequest(app, '30')
    await expect(bookDay(app.deps, long, 'week 2026-04-13')).rejects.toThrow(DayGone)
    await bookDay(app.deps, long, 'week 2026-04-20')
    expect(await daysBooked(long)).toEqual(['2026-04-20', '2026-04-21', '2026-04-22', '2026-04-23'])
    // Longer than a week: by day.
    const { path } = await acceptedRequest(app, '44')
    expect((await app.browser().get(path)).text).toContain('Your beds take 6 work days in a row')
  })
})

describe('refuses', () => {
  test('to move, close or price what has no day yet, plainly', async () => {
    const { id, number } = await chosen('week 2026-05-04')
    const noDay = { key: 'days.no-day-yet' }
    const move = { from: 'week 2026-05-04', to: '2026-05-05' }
    await expect(moveWork(app.deps, id, move, STAFF)).rejects.toMatchObject(noDay)
    await expect(closeJob(app.deps, ownerId, id, 1)).rejects.toMatchObject(noDay)
    const quote = await owner.get(`/queue/${number}/quote`)
    expect(quote.text).toContain('has a week but no day yet')
    const rain = (await owner.get(`/days/${(await daysBooked(id))[0]}/rain`)).text
    expect(rain).not.toContain(number)
  })

  test('a stale page, another week, a full day, a day where weeks are chosen', async () => {
    const { id, number } = await chosen('week 2026-05-11')
    await expect(say(id, '2026-05-12', 'week 2026-05-18')).rejects.toMatchObject({ key: 'error.stage' })
    await expect(say(id, '2026-05-19', 'week 2026-05-11')).rejects.toThrow(DayGone)
    const { id: other } = await acceptedRequest(app, '8')
    await bookDay(app.deps, other, '2026-05-14', STAFF)
    await expect(say(id, '2026-05-14', 'week 2026-05-11')).rejects.toThrow(DayGone)
    await bookDay(app.deps, id, 'week 2026-05-11')
    await expect(bookDay(app.deps, id, 'week 2026-05-18')).rejects.toMatchObject({ key: 'week.waits' })
    expect((await standing(app, id)).stage).toBe('week chosen')
    const broken = await owner.post(`/queue/${number}/week`).type('form').send({ week: 'x', weekDay: '9' })
    expect([broken.status, broken.text.includes('Choose a day.')]).toEqual([422, true])
    const { id: third, path: link } = await acceptedRequest(app)
    for (const day of ['2026-05-20', 'week 2026-05-20', 'week 2026-03-02', 'week 2999-01-07', 'week'])
      expect((await post(app, `${link}/day`, { day })).status).toBeOneOf([409, 422])
    expect((await standing(app, third)).stage).toBe('quoted')
  })

  test('no week where the owner offers days, and nobody but the owner says the day', async () => {
    const { id, number } = await chosen('week 2026-06-01')
    const form = { week: 'week 2026-06-01', weekDay: '2026-06-02' }
    expect((await app.browser().post(`/queue/${number}/week`).type('form').send(form)).status).toBe(303)
    expect((await standing(app, id)).stage).toBe('week chosen')
    await app.db.updateTable('business').set({ day_choice: 'day' }).execute()
    const { id: other } = await acceptedRequest(app)
    await expect(bookDay(app.deps, other, 'week 2026-06-08')).rejects.toThrow(DayGone)
    await app.db.updateTable('business').set({ day_choice: 'week' }).execute()
  })
})
