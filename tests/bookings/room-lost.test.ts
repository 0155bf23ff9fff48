import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { bookDay } from '../../src/bookings/booking.ts'
import { moveWork } from '../../src/bookings/move.ts'
import { findRainJobs, moveForRain, RainClash } from '../../src/bookings/rain.ts'
import { DayGone } from '../../src/bookings/refusals.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, standing } from '../helpers/bookings.ts'
import { openBusiness } from '../helpers/people.ts'

const [FROM, TO] = ['2026-03-10', '2026-03-12']

let app: TestApp
let id: number
let accountId: number

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  ;({ id: accountId } = await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow())
  ;({ id } = await acceptedRequest(app))
  await bookDay(app.deps, id, FROM)
  // The database as it answers when the last room went between the plan and its writing.
  await app.store.executeSql(`create function lose_room() returns trigger language plpgsql as $$
      begin raise exception 'no room' using errcode = '23514', constraint = 'work_day_has_room'; end $$;
    create trigger loses_room before insert on booking_day for each row execute function lose_room()`)
})
afterAll(() => app.close())

const days = async () => (await standing(app, id)).days.map(({ day }) => day)

test('work whose room the database gives to somebody else at the last moment stays where it is, and that is said', async () => {
  const move = moveWork(app.deps, id, { from: FROM, to: TO }, { kind: 'staff', accountId })
  await expect(move).rejects.toThrow(DayGone)
  expect(await days()).toEqual([FROM])
})

test('so does what rain would move', async () => {
  const choices = (await findRainJobs(app.db, FROM)).map(({ bookingId }) => ({ bookingId, to: TO }))
  const rain = moveForRain(app.deps, accountId, { key: randomUUID(), day: FROM, choices })
  await expect(rain).rejects.toThrow(RainClash)
  expect(choices).toHaveLength(1)
  expect(await days()).toEqual([FROM])
})
