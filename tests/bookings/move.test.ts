import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { bookDay } from '../../src/bookings/booking.ts'
import { moveWork } from '../../src/bookings/move.ts'
import { DayGone } from '../../src/bookings/refusals.ts'
import { keepAsSet, sayDayUnsuited } from '../../src/bookings/unsuited.ts'
import { requireBusiness } from '../../src/business/queries.ts'
import { setRoom } from '../../src/days/work-day.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, post, standing } from '../helpers/bookings.ts'
import { readCalendar } from '../helpers/calendars.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'

let app: TestApp
let owner: Browser
let ownerId: number
const HOMEOWNER = { kind: 'homeowner' } as const

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
  ;({ id: ownerId } = await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow())
})
afterAll(() => app.close())

const staff = () => ({ kind: 'staff', accountId: ownerId }) as const

async function booked(laborHours: string, day: string) {
  const accepted = await acceptedRequest(app, laborHours)
  await bookDay(app.deps, accepted.id, day)
  const ownPath = (await findLinkPath(app.db, app.deps.secretKey, 'own page', accepted.id))!
  return { ...accepted, ownPath }
}

async function taken(...days: string[]) {
  const rows = await app.db.selectFrom('work_day').select(['day', 'taken_hours']).execute()
  return days.map(day => Number(rows.find(row => row.day === day)?.taken_hours ?? 0))
}

async function stepOf(id: number) {
  const row = await app.db.selectFrom('quote_request').select('step').where('id', '=', id).executeTakeFirst()
  return row?.step
}

describe('by the staff', () => {
  test('the room goes along, every day stays on record, and the homeowner is told once', async () => {
    const job = await booked('12', '2026-03-12')
    const moved = { from: '2026-03-12', to: '2026-03-13' }
    // The first new day is the last old one: what the job has itself counts as free.
    await moveWork(app.deps, job.id, moved, staff())
    await moveWork(app.deps, job.id, moved, staff())
    expect(await taken('2026-03-12', '2026-03-13', '2026-03-16')).toEqual([0, 8, 4])
    const stands = await standing(app, job.id)
    expect(stands.mails.filter(kind => kind.startsWith('day-moved')).sort()).toEqual(['day-moved'])
    expect(stands.verbs.filter(verb => verb === 'work moved')).toHaveLength(1)
    const page = await owner.get(`/queue/${job.number}`)
    expect(page.text).toContain('Work moved from Thu, Mar 12, Fri, Mar 13 to Fri, Mar 13, Mon, Mar 16')
    const calendar = await app.browser().get(`${job.ownPath}/calendar.ics`)
    expect(readCalendar(calendar.text).entries).toMatchObject([
      { uid: `work-${job.number}@localhost`, sequence: 2, start: '2026-03-13', end: '2026-03-17' },
    ])
  })

  test('to a makeup day too, of whatever weekday, which nobody is offered', async () => {
    await setRoom(app.deps, await requireBusiness(app.db), '2026-03-14', '6', true)
    const job = await booked('3', '2026-03-17')
    const own = await app.browser().get(`${job.ownPath}/day`)
    expect(own.text).toContain('value="2026-03-09"')
    expect(own.text).not.toContain('2026-03-14')
    const other = await acceptedRequest(app)
    await expect(bookDay(app.deps, other.id, '2026-03-14')).rejects.toThrow(DayGone)
    expect((await owner.get(`/queue/${job.number}`)).text).toContain('Saturday, March 14 (makeup day)')
    const sent = { from: '2026-03-17', newDay: '2026-03-14' }
    const answer = await owner.post(`/queue/${job.number}/move`).type('form').send(sent)
    expect(answer.status).toBe(303)
    expect(await taken('2026-03-14', '2026-03-17')).toEqual([3, 0])
  })

  test('not where there is no room, nor from a page that is stale', async () => {
    const full = await booked('8', '2026-03-19')
    const job = await booked('2', '2026-03-20')
    const move = (from: string, newDay: string) =>
      owner.post(`/queue/${job.number}/move`).type('form').send({ from, newDay })
    const refused = await move('2026-03-20', '2026-03-19')
    expect(refused.status).toBe(422)
    expect(refused.text).toContain('just filled up')
    const stale = await move('2026-03-18', '2026-03-23')
    expect(stale.text).toContain('day has changed since')
    expect((await move('2026-03-20', '')).text).toContain('Choose a day.')
    expect((await standing(app, job.id)).days).toEqual([{ day: '2026-03-20', hours: '2.00' }])
    expect((await standing(app, full.id)).days).toEqual([{ day: '2026-03-19', hours: '8.00' }])
  })
})

describe('by the homeowner', () => {
  test('until three days before, and the staff hear of it', async () => {
    const job = await booked('2', '2026-03-05')
    const sent = { from: '2026-03-05', day: '2026-03-06' }
    const page = await app.browser().get(`${job.ownPath}/day`)
    expect(page.text).toContain('You can move it until Monday, March 2.')
    const link = async (path = job.path) => (await app.browser().get(path)).text
    const told = 'Until Monday, March 2 you can move it on your own page: our emails have its link.'
    expect(await link()).toContain(told)
    const late = await booked('2', '2026-03-04')
    expect(await link(late.path)).not.toContain('on your own page')
    expect(await link(late.path)).toContain('Need a different day? Call us:')
    expect((await post(app, `${job.ownPath}/day`, sent)).status).toBe(303)
    expect((await post(app, `${job.ownPath}/day`, sent)).status).toBe(303)
    const stands = await standing(app, job.id)
    expect(stands.days).toEqual([{ day: '2026-03-06', hours: '2.00' }])
    expect(stands.mails.filter(kind => kind.startsWith('day-moved')).sort()).toEqual([
      'day-moved',
      'day-moved-staff',
    ])
  })

  test('not when it is too late: then it is a call, until the staff move it or say that it stays', async () => {
    const job = await booked('2', '2026-03-04')
    const page = await app.browser().get(`${job.ownPath}/day`)
    expect(page.text).toContain('too close to the day')
    expect(page.text).not.toContain('value="2026-03-09"')
    await expect(
      moveWork(app.deps, job.id, { from: '2026-03-04', to: '2026-03-09' }, HOMEOWNER),
    ).rejects.toThrow('moves.too-late')
    const refused = await post(app, `${job.ownPath}/day`, { from: '2026-03-04', day: '2026-03-09' })
    expect([refused.status, refused.text.includes('Please call us.')]).toEqual([409, true])

    const said = { from: '2026-03-04', day: 'none', words: 'We are away' }
    for (const _ of ['once', 'again']) expect((await post(app, `${job.ownPath}/day`, said)).status).toBe(303)
    expect(await stepOf(job.id)).toBe('Call')
    const shown = await owner.get(`/queue/${job.number}`)
    expect(shown.text).toContain('Wednesday, March 4 doesn’t suit them: We are away')
    const stands = await standing(app, job.id)
    expect(stands.mails.filter(kind => kind === 'unsuited-staff')).toHaveLength(1)
    // Nobody answering is counted as on any call.
    await owner.post(`/queue/${job.number}/no-answer`).type('form').send({ calls: '0', again: '1' })
    expect((await owner.get('/queue')).text).toContain('doesn’t suit them; called once, no answer')

    await keepAsSet(app.deps, ownerId, job.id)
    expect(await stepOf(job.id)).toBe('Load')
    await sayDayUnsuited(app.deps, job.id, said)
    await moveWork(app.deps, job.id, { from: '2026-03-04', to: '2026-03-10' }, staff())
    expect(await stepOf(job.id)).toBe('Load')
  })

  test('a day that is not theirs to move any more is left alone', async () => {
    const job = await booked('1', '2026-03-24')
    await owner.post(`/queue/${job.number}/cancel`).type('form').send({ whyCanceled: 'The truck broke' })
    expect(await taken('2026-03-24')).toEqual([0])
    const answer = await post(app, `${job.ownPath}/day`, { from: '2026-03-24', day: '2026-03-25' })
    expect(answer.headers.location).toBe(job.ownPath)
    expect((await standing(app, job.id)).stage).toBe('called off')
    const page = await app.browser().get(job.ownPath)
    expect(page.text).toContain('we’ve had to cancel this request. The truck broke')
  })
})
