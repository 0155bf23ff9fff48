import { afterAll, beforeAll, expect, test } from 'vitest'
import { makeBill } from '../../src/billing/make-bill.ts'
import { closeJob } from '../../src/closing/close-job.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, post } from '../helpers/bookings.ts'
import { openBusiness } from '../helpers/people.ts'

let app: TestApp

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

// Chicago is six hours behind UTC in winter and five in summer, from March 8 to November 1 in 2026.
test.each([
  {
    what: 'February 29',
    // Monday noon, and half an hour before Tuesday ends.
    accepted: '2028-02-28T18:00:00Z',
    billed: '2028-03-01T05:30:00Z',
    worked: '2028-02-29',
    day: '2028-02-29',
    number: /^B28-/,
  },
  {
    what: 'the last day of the year, by UTC the next year’s first',
    accepted: '2026-12-31T05:30:00Z',
    billed: '2027-01-01T05:30:00Z',
    worked: '2026-12-31',
    day: '2026-12-31',
    number: /^B26-/,
  },
  {
    what: 'the first work day of summer time, billed as the next one begins',
    accepted: '2026-03-08T04:30:00Z',
    billed: '2026-03-10T05:00:00Z',
    worked: '2026-03-09',
    day: '2026-03-10',
    number: /^B26-/,
  },
  {
    what: 'the first work day after summer time, billed before it ends',
    accepted: '2026-11-01T04:30:00Z',
    billed: '2026-11-03T05:30:00Z',
    worked: '2026-11-02',
    day: '2026-11-02',
    number: /^B26-/,
  },
])(
  'a job on $what is booked, closed and billed on its days',
  async ({ accepted, billed, worked, day, number }) => {
    app.setClock(accepted)
    const { id, path } = await acceptedRequest(app)
    const [, offered] = /name="day" value="([\d-]+)"/.exec((await app.browser().get(path)).text) ?? []
    expect(offered).toBe(worked)
    expect((await post(app, `${path}/day`, { day: worked })).status).toBe(303)
    app.setClock(billed)
    await closeJob(app.deps, 1, id, 1)
    expect(await makeBill(app.deps, 1, id, { before: 0, added: [], total: null })).toMatch(number)
    const bill = await app.db
      .selectFrom('bill')
      .select(['day', 'due', 'first_day', 'last_day'])
      .where('quote_request_id', '=', id)
      .executeTakeFirstOrThrow()
    expect(bill).toEqual({ day, due: day, first_day: worked, last_day: worked })
  },
)
