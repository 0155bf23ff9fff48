import { afterAll, beforeAll, expect, test } from 'vitest'
import { findStopsDone } from '../../src/job-sheets/stops-done.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { bookedToday, closedRequest } from '../helpers/bookings.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { bedTold, told } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
let helper: Browser

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
  helper = await helperBrowser(app)
})
afterAll(() => app.close())

const check = (number: string, stop: string, done: string) =>
  helper.post(`/days/jobs/${number}/stops/${stop}`).type('form').send({ done })

test('stops are checked off one by one, and what stops there is what the owner starts from', async () => {
  const stops = ['North', 'South'].map(name => ({ name, note: '', spot: '' }))
  const beds = [bedTold({ stop: 0 }), bedTold({ stop: 1 })]
  const job = await bookedToday(app, '0.5', { told: { ...told(...beds), stops } })
  expect((await check(job.number, '1', 'yes')).headers.location).toBe(`/days/jobs/${job.number}/sheet#stop-2`)
  await check(job.number, '1', 'yes')
  expect(await findStopsDone(app.db, job.id)).toEqual(new Set([1]))
  expect((await check(job.number, '2', 'yes')).status).toBe(404)
  const page = await owner.get(`/days/jobs/${job.number}/close`)
  // Of the material half is at each stop, and one of them is done.
  const shares = [...page.text.matchAll(/name="share\.\d+\.(\d)"[^>]* value="(\d+)"/g)]
  expect(shares.map(([, stop, share]) => [stop, share])).toEqual([
    ['0', '0'],
    ['1', '100'],
  ])
  await check(job.number, '1', 'no')
  expect(await findStopsDone(app.db, job.id)).toEqual(new Set())
  expect((await check((await closedRequest(app)).number, '0', 'yes')).status).toBe(409)
})
