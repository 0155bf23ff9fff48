import { sql } from 'kysely'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { bookDay } from '../../src/bookings/booking.ts'
import { DayGone } from '../../src/bookings/refusals.ts'
import { requireBusiness } from '../../src/business/queries.ts'
import { haveRoom, roomsOf, shareOut } from '../../src/days/room.ts'
import { openStore, type Store } from '../../src/db/open.ts'
import type { Deps } from '../../src/deps.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, copyAccepted } from '../helpers/bookings.ts'
import { openBusiness } from '../helpers/people.ts'
import { urlOf } from '../helpers/store.ts'

/** How many compete; a long run sets COMPETING=1000. */
const COMPETING = Number(process.env.COMPETING ?? 200)
const CONNECTIONS = 10
const DAYS = ['2026-03-03', '2026-03-04', '2026-03-05', '2026-03-06', '2026-03-09']
// A day has 8 labor hours: jobs that fill it, that leave a rest, and that take two or three days.
const HOURS = ['1', '3', '8', '2.5', '11', '0.25', '5', '20']

let app: TestApp
let stores: Store[]
/** The instances that compete: two with connections of their own on the server, one on the embedded store. */
let instances: Deps[]

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  stores = app.kind === 'postgres' ? [await anotherStore(app)] : []
  instances = [app.deps, ...stores.map(store => ({ ...app.deps, db: store.db }))]
})
afterAll(async () => {
  await Promise.all(stores.map(store => store.close()))
  await app.close()
})

async function anotherStore({ store }: TestApp): Promise<Store> {
  return openStore({ dataDir: '', databaseUrl: await urlOf(store) })
}

/** Has the bookings done by all instances at once, each over as many connections as it holds open. */
async function compete(bookings: ((deps: Deps) => Promise<unknown>)[]) {
  const results: PromiseSettledResult<unknown>[] = []
  const ahead = bookings.entries()
  const lane = async (deps: Deps) => {
    for (const [job, book] of ahead) [results[job]] = (await Promise.allSettled([book(deps)])) as [never]
  }
  await Promise.all(instances.flatMap(deps => Array.from({ length: CONNECTIONS }, () => lane(deps))))
  return results
}

test(`${COMPETING} bookings compete for the last room of a few days: it is never exceeded`, {
  timeout: 600_000,
}, async () => {
  const { id } = await acceptedRequest(app)
  const hours = Array.from({ length: COMPETING }, (_, job) => HOURS[job % HOURS.length]!)
  const jobs = await copyAccepted(app, id, hours)
  const days = jobs.map((_, job) => DAYS[(job * 7) % DAYS.length]!)
  const results = await compete(jobs.map((id, job) => deps => bookDay(deps, id, days[job]!)))
  const refused = results.filter(result => result.status === 'rejected')
  expect(refused.filter(({ reason }) => !(reason instanceof DayGone)).map(({ reason }) => reason)).toEqual([])

  const { rows } = await sql<{ day: string; booked: string; taken_hours: string; room_hours: string }>`
      select day, taken_hours, room_hours, coalesce((select sum(hours) from booking_day where day = work_day.day), 0) as booked
      from work_day order by day`.execute(app.db)
  for (const { day, booked, taken_hours, room_hours } of rows) {
    expect({ day, taken: Number(taken_hours) }).toEqual({ day, taken: Number(booked) })
    expect(Number(booked), day).toBeLessThanOrEqual(Number(room_hours))
  }
  // Room only ever went away, so whoever was refused must find none now either.
  const business = await requireBusiness(app.db)
  const roomOn = roomsOf(business, rows)
  const fitsStill = (job: number) => {
    const shares = shareOut(hours[job]!, days[job]!, business.labor_hours_a_day, roomOn)
    return shares !== undefined && haveRoom(shares, roomOn)
  }
  expect(jobs.filter((_, job) => results[job]?.status === 'rejected' && fitsStill(job))).toEqual([])
  expect(refused.length).toBeGreaterThan(0)

  const { count } = await app.db
    .selectFrom('booking')
    .innerJoin('quote_request', 'quote_request.id', 'booking.quote_request_id')
    .select(eb => eb.fn.countAll<number>().as('count'))
    .where('quote_request.stage', '=', 'booked')
    .executeTakeFirstOrThrow()
  expect(count).toBe(COMPETING - refused.length)
})
