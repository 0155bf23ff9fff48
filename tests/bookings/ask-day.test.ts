import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { bookDay } from '../../src/bookings/booking.ts'
import { confirmDay, declineDay, endPastHolds } from '../../src/bookings/day-asked.ts'
import { DayGone } from '../../src/bookings/refusals.ts'
import { requireBusiness } from '../../src/business/queries.ts'
import { freeFirstDays } from '../../src/days/queries.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import {
  acceptedRequest,
  acceptForm,
  askedRequest,
  post,
  quotedRequest,
  standing,
} from '../helpers/bookings.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'

const NOW = Temporal.Instant.from('2026-03-02T15:00:00Z')
const STAFF = { kind: 'staff', accountId: 1 } as const

let app: TestApp
let owner: Browser
let ownerId: number

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
  ;({ id: ownerId } = await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow())
  await app.db.updateTable('business').set({ day_choice: 'ask' }).execute()
})
afterAll(() => app.close())
afterEach(() => {
  app.setClock(NOW.toString())
})

async function asked(day: string, hours = '3') {
  const accepted = await acceptedRequest(app, hours)
  await bookDay(app.deps, accepted.id, day)
  return accepted
}
/** Whether six hours more go on a day. */
async function free(day: string) {
  const business = await requireBusiness(app.db)
  const [first] = await freeFirstDays(app.db, business, '6', day, 1, app.deps.now())
  return first?.day === day
}
const inQueue = (id: number) =>
  app.db.selectFrom('quote_request').select(['step', 'due_at']).where('id', '=', id).executeTakeFirstOrThrow()
const kinds = async (id: number) => (await standing(app, id)).mails

describe('works', () => {
  test('a day that is asked for is held, stands under Call until the hold ends, and is confirmed once', async () => {
    const { id, number, path } = await acceptedRequest(app)
    const page = (await app.browser().get(path)).text
    expect(page).toContain('Ask for this day')
    const posts = [1, 2].map(() => post(app, `${path}/day`, { day: '2026-03-10' }))
    for (const answer of await Promise.all(posts)) expect(answer.status).toBe(303)
    expect(await standing(app, id)).toMatchObject({
      stage: 'day asked',
      days: [{ day: '2026-03-10', hours: '3.00' }],
    })
    expect(await inQueue(id)).toEqual({ step: 'Call', due_at: '2026-03-04T15:00:00Z' })
    expect((await app.browser().get(path)).text).toContain('You asked for Tuesday, March 10')
    const own = (await findLinkPath(app.db, app.deps.secretKey, 'own page', id))!
    expect((await app.browser().get(own)).text).toContain('suggest another day')
    expect((await owner.get('/queue')).text).toContain('asked for Tue, Mar 10, held until')
    expect((await owner.get('/days?from=2026-03-10')).text).toContain('Asked for, not confirmed yet')
    expect((await owner.get(`/queue/${number}`)).text).not.toContain('Work day: Tuesday, March 10')
    // Six more hours don’t fit beside it.
    expect(await free('2026-03-10')).toBe(false)
    for (const _press of [1, 2]) {
      const answer = await owner
        .post(`/queue/${number}/day/confirm`)
        .type('form')
        .send({ asked: '2026-03-10' })
      expect(answer.status).toBe(303)
    }
    expect((await owner.get(`/queue/${number}`)).text).toContain('Work day: Tuesday, March 10')
    const { stage, verbs } = await standing(app, id)
    expect(stage).toBe('booked')
    expect(verbs.filter(verb => verb === 'day asked' || verb === 'day booked')).toEqual([
      'day asked',
      'day booked',
    ])
    expect((await kinds(id)).filter(kind => kind.startsWith('day-')).sort()).toEqual([
      'day-asked',
      'day-asked-staff',
      'day-booked',
    ])
  })

  test('declined, the room is free again, and the day offered is booked as soon as it is chosen', async () => {
    const { id, number, path } = await asked('2026-03-12')
    const sent = { asked: '2026-03-12', offered: '2026-03-03', whyNotThen: 'Our truck is in the shop.' }
    const decline = () => owner.post(`/queue/${number}/day/decline`).type('form').send(sent)
    expect((await decline()).status).toBe(303)
    const again = await decline()
    expect([again.status, again.text.includes('isn’t asked for anymore')]).toEqual([422, true])
    expect(await standing(app, id)).toMatchObject({ stage: 'quoted', days: [] })
    expect(await free('2026-03-12')).toBe(true)
    const page = (await app.browser().get(path)).text
    expect(page).toContain('we can’t come on Thursday, March 12. Our truck is in the shop.')
    expect(page.match(/name="day" value="([^"]+)"/)![1]).toBe('2026-03-03')
    await post(app, `${path}/day`, { day: '2026-03-03' })
    expect(await standing(app, id)).toMatchObject({ stage: 'booked', days: [{ day: '2026-03-03' }] })
    // Anything else is asked for once more.
    const { id: other } = await asked('2026-03-13')
    await declineDay(app.deps, ownerId, other, { day: '2026-03-13', offered: '2026-03-16', words: '' })
    await bookDay(app.deps, other, '2026-03-17')
    expect((await standing(app, other)).stage).toBe('day asked')
  })

  test('after two days it is free for others at once, and ends by itself', async () => {
    const { id, path } = await asked('2026-03-18', '5')
    app.setClock(NOW.add({ hours: 47 }).toString())
    expect(await free('2026-03-18')).toBe(false)
    app.setClock(NOW.add({ hours: 48 }).toString())
    expect(await free('2026-03-18')).toBe(true)
    expect((await app.browser().get(path)).text).toContain('Ask for this day')
    const { id: other } = await acceptedRequest(app, '6')
    await bookDay(app.deps, other, '2026-03-18')
    expect((await standing(app, id)).stage).toBe('quoted')
    expect((await kinds(id)).filter(kind => kind.startsWith('day-hold'))).toEqual(['day-hold-ended'])
    expect(await endPastHolds(app.deps)).toBe(0)
    await expect(confirmDay(app.deps, ownerId, id, '2026-03-18')).rejects.toThrow()
    expect((await app.browser().get(path)).text).toContain('We didn’t confirm Wednesday, March 18 in time')
  })

  test('accepting and asking is one post', async () => {
    const { id, path } = await quotedRequest(app)
    expect((await app.browser().get(path)).text).toContain('Accept and ask for a day')
    const check = await post(app, `${path}/check`, acceptForm({ day: '2026-03-24' }))
    expect(check.text).toContain('Day you’re asking for')
    const answer = await post(app, `${path}/accept`, acceptForm({ day: '2026-03-24' }))
    expect(answer.status).toBe(303)
    expect(await standing(app, id)).toMatchObject({ stage: 'day asked', days: [{ day: '2026-03-24' }] })
  })

  test('canceling gives the day back', async () => {
    const { id, number } = await asked('2026-03-26')
    await owner.post(`/queue/${number}/cancel`).type('form').send({ whyCanceled: 'Too far' })
    expect(await standing(app, id)).toMatchObject({ stage: 'called off', days: [] })
    expect(await free('2026-03-26')).toBe(true)
  })

  test('a business that books days goes on with what was asked for before', async () => {
    const { id } = await askedRequest(app, '3', '2026-03-27')
    await app.db.updateTable('business').set({ day_choice: 'ask' }).execute()
    expect((await standing(app, id)).stage).toBe('day asked')
    await confirmDay(app.deps, ownerId, id, '2026-03-27')
    expect((await standing(app, id)).stage).toBe('booked')
  })
})

describe('refused', () => {
  test('another day while one is asked for, a newer price, and the staff’s booking beside it', async () => {
    const { id, number } = await asked('2026-04-01')
    await expect(bookDay(app.deps, id, '2026-04-02')).rejects.toMatchObject({ key: 'asked.waits' })
    await expect(bookDay(app.deps, id, '2026-04-01', STAFF)).rejects.toMatchObject({ key: 'error.stage' })
    await expect(quoteRequest(app, number, { laborHours: '2' })).rejects.toMatchObject({
      key: 'quote.day-asked',
    })
    expect(await standing(app, id)).toMatchObject({ stage: 'day asked', days: [{ day: '2026-04-01' }] })
  })

  test('a stale page: another day than is asked for, or one offered that is full by now', async () => {
    const { id } = await asked('2026-04-06')
    await expect(confirmDay(app.deps, ownerId, id, '2026-04-07')).rejects.toMatchObject({ key: 'asked.gone' })
    const full = await acceptedRequest(app, '8')
    await bookDay(app.deps, full.id, '2026-04-07', STAFF)
    const declined = { day: '2026-04-06', offered: '2026-04-07', words: '' }
    await expect(declineDay(app.deps, ownerId, id, declined)).rejects.toThrow(DayGone)
    expect(await standing(app, id)).toMatchObject({ stage: 'day asked', days: [{ day: '2026-04-06' }] })
  })

  test('the homeowner moves nothing where the owner confirms days', async () => {
    const { id } = await acceptedRequest(app)
    await bookDay(app.deps, id, '2026-04-09', STAFF)
    const path = `${await findLinkPath(app.db, app.deps.secretKey, 'own page', id)}/day`
    expect((await app.browser().get(path)).text).not.toContain('value="2026-04-10"')
    const answer = await post(app, path, { from: '2026-04-09', day: '2026-04-10' })
    expect([answer.status, answer.text.includes('call us or tell us here')]).toEqual([409, true])
  })
})
