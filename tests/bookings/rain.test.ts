import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { bookDay } from '../../src/bookings/booking.ts'
import { findRainJobs, moveForRain, RainClash } from '../../src/bookings/rain.ts'
import { requireBusiness } from '../../src/business/queries.ts'
import { setRoom } from '../../src/days/work-day.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, copyAccepted, standing } from '../helpers/bookings.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'

let app: TestApp
let owner: Browser
let ownerId: number
let pattern: number

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
  ;({ id: ownerId } = await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow())
  ;({ id: pattern } = await acceptedRequest(app))
})
afterAll(() => app.close())

// Each test has a week of its own.
let week = Temporal.PlainDate.from('2026-03-09')
beforeEach(() => {
  week = week.add({ weeks: 3 })
})
const day = (ahead: number) => week.add({ days: ahead }).toString()

async function accepted(hours: string[]) {
  const ids = await copyAccepted(app, pattern, hours)
  // The next copies have the same numbers.
  for (const id of ids)
    await app.db
      .updateTable('quote_request')
      .set({ number: `C-${id}` })
      .where('id', '=', id)
      .execute()
  return ids
}

async function booked(hours: string[], on: string) {
  const ids = await accepted(hours)
  for (const id of ids) await bookDay(app.deps, id, on)
  return ids
}

async function choose(on: string, to: (string | null)[]) {
  const jobs = await findRainJobs(app.db, on)
  const choices = jobs.map(({ bookingId }, nth) => ({ bookingId, to: to[nth] ?? null }))
  return { key: randomUUID(), day: on, choices }
}

const daysOf = async (id: number) =>
  (await standing(app, id)).days.map(share => [share.day, Number(share.hours)])

/** Every day has as much taken as its shares come to, and no more than its room. */
async function expectSound() {
  const rows = await app.db.selectFrom('work_day').selectAll().execute()
  const shares = await app.db.selectFrom('booking_day').select(['day', 'hours']).execute()
  for (const row of rows) {
    const sum = shares
      .filter(share => share.day === row.day)
      .reduce((all, { hours }) => all + Number(hours), 0)
    expect({ day: row.day, taken: Number(row.taken_hours) }).toEqual({ day: row.day, taken: sum })
    expect(sum).toBeLessThanOrEqual(Number(row.room_hours))
  }
}

describe('works', () => {
  test('all jobs of the day in one go', async () => {
    const [long] = await booked(['12'], day(0))
    const [late] = await booked(['4'], day(1))
    // On the second day it rains: the first 8 hours of the long job stay.
    const sent = await choose(day(1), [day(2), day(2)])
    await moveForRain(app.deps, ownerId, sent)
    expect(await daysOf(long!)).toEqual([
      [day(0), 8],
      [day(2), 4],
    ])
    expect(await daysOf(late!)).toEqual([[day(2), 4]])
    await expectSound()
  })

  test('the rest of a longer job goes, what was done before stays, and each hears of it', async () => {
    const [long, small] = [...(await booked(['20'], day(0))), ...(await booked(['4'], day(2)))]
    await setRoom(app.deps, await requireBusiness(app.db), day(5), '8', true)
    // On the second day it rains: 12 hours are left of the long job, and the third day has 4 of the small one.
    const sent = await choose(day(1), [day(3)])
    await moveForRain(app.deps, ownerId, sent)
    expect(await daysOf(long!)).toEqual([
      [day(0), 8],
      [day(3), 8],
      [day(4), 4],
    ])
    expect(await daysOf(small!)).toEqual([[day(2), 4]])
    const stands = await standing(app, long!)
    expect(stands.mails).toContain('rain-moved')
    expect(stands.verbs.at(-1)).toBe('moved for rain')
    const rows = await app.db
      .selectFrom('booking')
      .select('first_day')
      .where('quote_request_id', '=', long!)
      .execute()
    expect(rows).toHaveLength(2)
    await expectSound()
  })

  test('the preview offers the makeup day first, and one page sends all', async () => {
    await setRoom(app.deps, await requireBusiness(app.db), day(5), '5', true)
    const [one, two] = await booked(['5', '3'], day(0))
    const page = (await owner.get(`/days/${day(0)}/rain`)).text
    const picked = [
      ...page.matchAll(/<select[^>]* name="(to\.\d+)"[\s\S]*?<option value="([^"]+)" selected/g),
    ]
    // The makeup day has 5 hours, so the second job takes the next day.
    expect(picked.map(([, , value]) => value)).toEqual([day(5), day(1)])
    const key = /name="key" value="([^"]+)"/.exec(page)![1]
    const form = { key, ...Object.fromEntries(picked.map(([, name, value]) => [name, value])) }
    for (const _ of ['pressed', 'pressed twice']) {
      const answer = await owner
        .post(`/days/${day(0)}/rain`)
        .type('form')
        .send(form)
      expect(answer.status).toBe(303)
    }
    expect([await daysOf(one!), await daysOf(two!)]).toEqual([[[day(5), 5]], [[day(1), 3]]])
    expect((await standing(app, one!)).mails.filter(kind => kind === 'rain-moved')).toHaveLength(1)
    await expectSound()
  })
})

describe('all or none', () => {
  test('where the last of them has no room, nothing moves and nobody hears', async () => {
    const [one, two] = await booked(['5', '3'], day(0))
    await booked(['6'], day(1))
    const sent = await choose(day(0), [day(2), day(1)])
    await expect(moveForRain(app.deps, ownerId, sent)).rejects.toThrow(RainClash)
    expect([await daysOf(one!), await daysOf(two!)]).toEqual([[[day(0), 5]], [[day(0), 3]]])
    expect((await standing(app, one!)).mails).not.toContain('rain-moved')
    const jobs = await findRainJobs(app.db, day(0))
    const [first, second] = jobs.map(({ bookingId }) => `to.${bookingId}`)
    const form = { key: randomUUID(), [first!]: day(2), [second!]: day(1) }
    const answer = await owner
      .post(`/days/${day(0)}/rain`)
      .type('form')
      .send(form)
    expect(answer.status).toBe(409)
    expect(answer.text).toMatch(new RegExp(`id="${second!.replace('.', '-')}-error">That day is too full`))
    // What was chosen for the other one stays chosen.
    expect(answer.text).toContain(`<option value="${day(2)}" selected`)
    await expectSound()
  })

  test('two that would share a day count together', async () => {
    const [one] = await booked(['5', '3'], day(0))
    await booked(['2'], day(1))
    await expect(moveForRain(app.deps, ownerId, await choose(day(0), [day(1), day(1)]))).rejects.toThrow(
      RainClash,
    )
    expect(await daysOf(one!)).toEqual([[day(0), 5]])
  })

  test('a job that came or went meanwhile is looked at again', async () => {
    await booked(['2'], day(0))
    const sent = await choose(day(0), [day(1)])
    await booked(['3'], day(0))
    await expect(moveForRain(app.deps, ownerId, sent)).rejects.toThrow('moves.rain-changed')
    const answer = await owner
      .post(`/days/${day(3)}/rain`)
      .type('form')
      .send({ key: randomUUID() })
    expect(answer.status).toBe(303)
  })
})

test('two who send at once, and bookings meanwhile: each job moves once, and no room is exceeded', async () => {
  const ids = await booked(['3', '3', '2'], day(0))
  const rivals = await accepted(['4', '4', '5'])
  const to = [day(1), day(2), day(1)]
  const [first, second] = [await choose(day(0), to), await choose(day(0), to)]
  const results = await Promise.allSettled([
    moveForRain(app.deps, ownerId, first),
    bookDay(app.deps, rivals[0]!, day(1)),
    moveForRain(app.deps, ownerId, second),
    bookDay(app.deps, rivals[1]!, day(1)),
    bookDay(app.deps, rivals[2]!, day(2)),
  ])
  const moved = [results[0], results[2]].filter(({ status }) => status === 'fulfilled').length
  expect(moved).toBeLessThanOrEqual(1)
  for (const id of ids) {
    const { verbs } = await standing(app, id)
    expect(verbs.filter(verb => verb === 'moved for rain')).toHaveLength(moved)
  }
  await expectSound()
})
