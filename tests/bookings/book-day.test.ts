import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { bookDay } from '../../src/bookings/booking.ts'
import { giveBackDay } from '../../src/bookings/give-back-day.ts'
import { DayGone } from '../../src/bookings/refusals.ts'
import { requireBusiness } from '../../src/business/queries.ts'
import { setRoom } from '../../src/days/work-day.ts'
import { Conflict } from '../../src/http/errors.ts'
import { lockQuoteRequest } from '../../src/requests/stage.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, quotedRequest, standing } from '../helpers/bookings.ts'
import { openBusiness } from '../helpers/people.ts'

let app: TestApp

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

async function taken(day: string): Promise<string | undefined> {
  const row = await app.db
    .selectFrom('work_day')
    .select('taken_hours')
    .where('day', '=', day)
    .executeTakeFirst()
  return row?.taken_hours
}

async function closeDay(day: string, room = '0') {
  await setRoom(app.deps, await requireBusiness(app.db), day, room)
}

describe('works', () => {
  test('two jobs share a day', async () => {
    const [one, two] = [await acceptedRequest(app, '5'), await acceptedRequest(app, '3')]
    await bookDay(app.deps, one.id, '2026-03-10')
    await bookDay(app.deps, two.id, '2026-03-10')
    expect(await taken('2026-03-10')).toBe('8.00')
  })

  test('a long job takes whole days, passes the weekend and a closed day, and ends on what is left', async () => {
    await closeDay('2026-03-16')
    const early = await acceptedRequest(app, '3')
    await bookDay(app.deps, early.id, '2026-03-18')
    const { id } = await acceptedRequest(app, '20.5')
    await bookDay(app.deps, id, '2026-03-13')
    expect((await standing(app, id)).days).toEqual([
      { day: '2026-03-13', hours: '8.00' },
      { day: '2026-03-17', hours: '8.00' },
      { day: '2026-03-18', hours: '4.50' },
    ])
    expect(await taken('2026-03-18')).toBe('7.50')
  })

  test('a day given back has its room again, and the booking stays on record', async () => {
    const { id } = await acceptedRequest(app, '12')
    await bookDay(app.deps, id, '2026-03-24')
    const freed = await app.db.transaction().execute(async trx => {
      await lockQuoteRequest(trx, id)
      return giveBackDay(trx, id, app.deps.now())
    })
    expect(freed).toBe('2026-03-24')
    expect([await taken('2026-03-24'), await taken('2026-03-25')]).toEqual(['0.00', '0.00'])
    const past = await app.db
      .selectFrom('booking')
      .select(['first_day', 'called_off_at'])
      .where('quote_request_id', '=', id)
      .execute()
    expect(past).toEqual([{ first_day: '2026-03-24', called_off_at: '2026-03-02T15:00:00Z' }])
    const again = await app.db.transaction().execute(trx => giveBackDay(trx, id, app.deps.now()))
    expect(again).toBeUndefined()
  })
})

describe('refused', () => {
  test('a long job where a day in the middle is taken, or the last has too little left', async () => {
    const small = await acceptedRequest(app, '1')
    await bookDay(app.deps, small.id, '2026-03-31')
    const { id } = await acceptedRequest(app, '16')
    for (const day of ['2026-03-30', '2026-03-31'])
      await expect(bookDay(app.deps, id, day)).rejects.toThrow(DayGone)
    expect(await standing(app, id)).toMatchObject({ stage: 'quoted', days: [] })
    expect([(await taken('2026-03-30')) ?? '0.00', await taken('2026-03-31')]).toEqual(['0.00', '1.00'])
  })

  test.each([
    ['today', '2026-03-02'],
    ['the past', '2026-02-27'],
    ['a Saturday', '2026-03-07'],
    ['more than a year ahead', '2027-03-05'],
  ])('%s', async (_, day) => {
    const { id } = await acceptedRequest(app)
    await expect(bookDay(app.deps, id, day)).rejects.toThrow(DayGone)
  })

  test('a closed day, and one whose room was cut', async () => {
    await closeDay('2026-04-06')
    await closeDay('2026-04-07', '2.5')
    const { id } = await acceptedRequest(app)
    for (const day of ['2026-04-06', '2026-04-07'])
      await expect(bookDay(app.deps, id, day)).rejects.toThrow(DayGone)
  })

  test('before the quote is accepted', async () => {
    const { id } = await quotedRequest(app)
    await expect(bookDay(app.deps, id, '2026-03-12')).rejects.toThrow('booking.not-accepted')
  })
})

describe('twice', () => {
  test('the same day again gives the same, another is refused', async () => {
    const { id } = await acceptedRequest(app)
    const first = await bookDay(app.deps, id, '2026-03-12')
    expect(await bookDay(app.deps, id, '2026-03-12')).toEqual(first)
    await expect(bookDay(app.deps, id, '2026-03-11')).rejects.toThrow(Conflict)
    expect((await standing(app, id)).mails.filter(kind => kind === 'day-booked')).toHaveLength(1)
  })
})
