import { sql } from 'kysely'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { bookDay } from '../../src/bookings/booking.ts'
import { findCrew, keepCrew } from '../../src/days/crew.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, copyAccepted } from '../helpers/bookings.ts'
import { weekdays } from '../helpers/crew.ts'
import { openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'
import { type Act, isFault } from './acts.ts'
import { elsewhere, here } from './two-processes.ts'

let app: TestApp

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  await app.db.updateTable('business').set({ half_days: true }).execute()
})
afterAll(() => app.close())

const [ONE, TWO] = ['2026-03-10', '2026-03-11'] as const

test('mornings, afternoons, days, visits, moves and days off from two processes at once: no half and no day is sold twice', async () => {
  // Twelve hours a day, six in each half; eight on the day that Ben is off.
  const two = [
    { id: null, name: 'Ann', hours: weekdays('8') },
    { id: null, name: 'Ben', hours: weekdays('4') },
  ]
  await keepCrew(app.deps, two, [])
  const ben = (await findCrew(app.db)).find(({ name }) => name === 'Ben')!.id
  const { id: pattern } = await acceptedRequest(app)
  const ids = await copyAccepted(app, pattern, [
    ...Array.from({ length: 8 }, () => '2.5'),
    '4',
    '4',
    '5',
    '5',
  ])
  const visits: number[] = []
  for (let count = 0; count < 4; count += 1) visits.push((await sendRequest(app)).id)
  await bookDay(app.deps, ids[0]!, `${ONE} am`)
  const book = (nth: number, day: string): Act => ({ verb: 'book', id: ids[nth]!, day })
  const visit = (nth: number, day: string, hour: string): Act => ({
    verb: 'visit',
    id: visits[nth]!,
    // In the daylight time of Chicago five hours before UTC.
    at: `${day}T${hour}:00Z`,
  })
  const mine: Act[] = [
    ...[1, 2, 3].map(nth => book(nth, `${ONE} am`)),
    book(8, ONE),
    book(10, TWO),
    visit(0, ONE, '14:00'),
    visit(1, TWO, '16:30'),
    { verb: 'off', person: ben, day: ONE },
  ]
  const theirs: Act[] = [
    ...[4, 5].map(nth => book(nth, `${ONE} am`)),
    ...[6, 7].map(nth => book(nth, `${ONE} pm`)),
    book(9, ONE),
    book(11, TWO),
    { verb: 'move', id: ids[0]!, from: `${ONE} am`, to: `${TWO} pm` },
    visit(2, ONE, '15:00'),
    visit(3, TWO, '19:00'),
    // The same visit that the other process sets too.
    visit(0, TWO, '20:00'),
  ]
  const start = await elsewhere(app, theirs)
  const [one, other] = await Promise.all([here(app, mine), start()])
  const said = [...one, ...other]
  expect(said.filter(isFault)).toEqual([])
  // Visits are never refused for room.
  expect([one[5], one[6], other[7], other[8], other[9]]).toEqual([null, null, null, null, null])
  expect(said.filter(why => why !== null).length).toBeGreaterThan(0)
  const { rows } = await sql`
    select day from work_day
      join lateral (select coalesce(sum(hours), 0) as whole,
          coalesce(sum(hours) filter (where part = 'am'), 0) as am,
          coalesce(sum(hours) filter (where part = 'pm'), 0) as pm
        from booking_day where booking_day.day = work_day.day) as shares on true
      join lateral (select coalesce(sum(round(minutes / 60.0, 2)), 0) as whole,
          coalesce(sum(hours_before_noon(starts_at, minutes, time_zone)), 0) as am
        from visit, business where called_off_at is null
          and (starts_at at time zone time_zone)::date = work_day.day) as visits on true
    where (taken_hours, am_hours, pm_hours) is distinct from (shares.whole, shares.am, shares.pm)
      or (visit_need, visit_am_need, visit_pm_need) is distinct from (visits.whole, visits.am, visits.whole - visits.am)
      or taken_hours + visit_hours > room_hours
      or 2 * greatest(am_hours + visit_am_hours, pm_hours + visit_pm_hours) > room_hours
      or visit_am_hours <> greatest(0, least(visit_am_need, room_hours / 2 - am_hours))
      or room_hours <> usual_room(day)`.execute(app.db)
  expect(rows).toEqual([])
  const standing = await sql<{ id: number }>`
    select quote_request_id as id from booking where called_off_at is null group by 1 having count(*) > 1`.execute(
    app.db,
  )
  expect(standing.rows).toEqual([])
  const set = await sql<{ count: number }>`
    select count(*) as count from visit where called_off_at is null`.execute(app.db)
  expect(Number(set.rows[0]!.count)).toBe(4)
})
