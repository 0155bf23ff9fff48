import { afterAll, beforeAll, expect, test } from 'vitest'
import { bookDay } from '../../src/bookings/booking.ts'
import { nearFirst } from '../../src/bookings/near-days.ts'
import { DayGone } from '../../src/bookings/refusals.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, post } from '../helpers/bookings.ts'
import { openBusiness } from '../helpers/people.ts'

let app: TestApp

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

const STAFF = { kind: 'staff', accountId: 1 } as const
const rules = (set: { notice_days?: number; near_first?: boolean }) =>
  app.db.updateTable('business').set(set).execute()
const offered = async (path: string) =>
  [...(await app.browser().get(path)).text.matchAll(/name="day" value="(2026-[^"]+)"/g)].map(([, day]) => day)

test('homeowners choose with the notice that the business wants, the staff from tomorrow on', async () => {
  await rules({ notice_days: 5 })
  const job = await acceptedRequest(app)
  // Monday and five days are Saturday.
  expect((await offered(job.path))[0]).toBe('2026-03-09')
  await expect(bookDay(app.deps, job.id, '2026-03-06')).rejects.toThrow(DayGone)
  expect((await post(app, `${job.path}/day`, { day: '2026-03-06' })).status).toBe(409)
  await bookDay(app.deps, job.id, '2026-03-06', STAFF)
  await rules({ notice_days: 1 })
})

test('days with work in the same ZIP code come first and say so', async () => {
  const near = await acceptedRequest(app, '2', { postcode: '78703-1234' })
  const far = await acceptedRequest(app, '2', { postcode: '78701' })
  await bookDay(app.deps, near.id, '2026-03-19')
  await bookDay(app.deps, far.id, '2026-03-20')
  const job = await acceptedRequest(app, '2', { postcode: '78703' })
  const days = await offered(job.path)
  expect(days.slice(0, 2)).toEqual(['2026-03-19', '2026-03-03'])
  expect(new Set(days).size).toBe(days.length)
  const page = (await app.browser().get(job.path)).text
  expect(page.match(/in your area that day/g)).toHaveLength(1)
  expect(page).toContain('weather permitting')
  const later = (await offered(`${job.path}?from=2026-03-18`)).slice(0, 2)
  expect(later).toEqual(['2026-03-18', '2026-03-19'])
  await rules({ near_first: false })
  expect((await offered(job.path))[0]).toBe('2026-03-03')
  expect((await app.browser().get(job.path)).text).not.toContain('in your area')
  await rules({ near_first: true })
})

test('at most three come before the others, and none of them twice', () => {
  const found = ['03', '04', '05', '06', '09', '10'].map(day => ({ day, free: '8', shares: [], parts: [] }))
  const shown = nearFirst(found, new Set(['04', '06', '09', '10']), 4)
  expect(shown.map(({ day }) => day)).toEqual(['04', '06', '09', '03', '05'])
})
