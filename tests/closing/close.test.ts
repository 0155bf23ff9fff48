import { afterAll, beforeAll, expect, test } from 'vitest'
import { bookDay } from '../../src/bookings/booking.ts'
import { closeJob } from '../../src/closing/close-job.ts'
import { findClosing } from '../../src/closing/queries.ts'
import { reopenJob } from '../../src/closing/reopen.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, standing } from '../helpers/bookings.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'

let app: TestApp
let owner: Browser
let helper: Browser
let ownerId: number
let helperId: number

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
  helper = await helperBrowser(app)
  const accounts = await app.db.selectFrom('account').select(['id', 'role']).execute()
  ownerId = accounts.find(({ role }) => role === 'owner')!.id
  helperId = accounts.find(({ role }) => role === 'helper')!.id
})
afterAll(() => app.close())

const DAY = '2026-03-05'

/** A job of some labor hours, booked, seen at noon of another day. */
async function bookedJob(hours = '0.5', seenOn = DAY, day = DAY) {
  app.setClock('2026-03-02T15:00:00Z')
  const job = await acceptedRequest(app, hours)
  await bookDay(app.deps, job.id, day)
  app.setClock(`${seenOn}T18:00:00Z`)
  return job
}

const closings = (id: number) =>
  app.db
    .selectFrom('job_closing')
    .select(['version', 'outcome', 'first_day', 'last_day', 'made_by'])
    .where('quote_request_id', '=', id)
    .orderBy('version')
    .execute()

const tap = (who: Browser, number: string, version = '1', from = 'days') =>
  who.post(`/days/jobs/${number}/close`).type('form').send({ version, from })

test('one tap by the helper closes it: under Bill, with its days, who, and when', async () => {
  const job = await bookedJob()
  expect((await helper.get('/days')).text).toContain(`action="/days/jobs/${job.number}/close"`)
  const answer = await tap(helper, job.number)
  expect([answer.status, answer.headers.location]).toEqual([303, '/days'])
  expect(await closings(job.id)).toEqual([
    { version: 1, outcome: 'done', first_day: DAY, last_day: DAY, made_by: helperId },
  ])
  const row = await app.db.selectFrom('quote_request').select(['stage', 'step']).where('id', '=', job.id)
  expect(await row.executeTakeFirst()).toEqual({ stage: 'done', step: 'Bill' })
  const page = await owner.get(`/queue/${job.number}`)
  expect(page.text).toContain('Done as planned. Said by Hugo Moss, Thu, Mar 5')
  expect(page.text).toContain('Done as planned, Thu, Mar 5')
  const days = await helper.get('/days')
  expect(days.text).not.toContain(`action="/days/jobs/${job.number}/close"`)
})

test('two phones at once close it once, and the second sees what the first said', async () => {
  const job = await bookedJob()
  const answers = await Promise.all([
    closeJob(app.deps, ownerId, job.id, 1),
    closeJob(app.deps, helperId, job.id, 1),
  ])
  const [first] = answers.filter(({ isNew }) => isNew)
  expect(answers.filter(({ isNew }) => isNew)).toHaveLength(1)
  expect(answers.map(({ closing }) => closing.made_by)).toEqual([
    first!.closing.made_by,
    first!.closing.made_by,
  ])
  expect(await closings(job.id)).toHaveLength(1)
  const { verbs } = await standing(app, job.id)
  expect(verbs.filter(verb => verb === 'job closed')).toHaveLength(1)

  const late = await tap(owner, job.number, '1', 'request')
  expect(late.headers.location).toBe(`/queue/${job.number}`)
  const name = first!.closing.made_by_name
  expect((await owner.get('/days')).text).toContain(`${name} already closed ${job.number}`)
})

test('before its day nothing asks how it went, neither the request nor the sheet', async () => {
  const job = await bookedJob('0.5', '2026-03-04')
  const pages = [`/queue/${job.number}`, `/days/jobs/${job.number}/sheet`]
  const asks = async () =>
    (await Promise.all(pages.map(path => owner.get(path)))).map(({ text }) =>
      text.includes(`/${job.number}/close"`),
    )
  expect(await asks()).toEqual([false, false])
  app.setClock(`${DAY}T18:00:00Z`)
  expect(await asks()).toEqual([true, true])
})

test('not before its last booked day has come', async () => {
  const job = await bookedJob('12', '2026-03-04', '2026-03-04')
  const answer = await tap(owner, job.number)
  expect(answer.status).toBe(409)
  expect(answer.text).toContain('hasn’t come yet')
  expect(answer.text).not.toContain('class="one-tap"')
  app.setClock('2026-03-05T18:00:00Z')
  await tap(owner, job.number)
  expect(await findClosing(app.db, job.id)).toMatchObject({ first_day: '2026-03-04', last_day: '2026-03-05' })
})

test('closed by mistake it is opened again, once, and a tap from before that doesn’t close it', async () => {
  const job = await bookedJob()
  await tap(owner, job.number)
  const reopen = (version: string) => owner.post(`/queue/${job.number}/reopen`).type('form').send({ version })
  expect((await helper.post(`/queue/${job.number}/reopen`).type('form').send({ version: '2' })).status).toBe(
    403,
  )
  expect((await reopen('1')).text).toContain('Something changed since you opened this page')
  expect((await reopen('2')).status).toBe(303)
  await reopenJob(app.deps, ownerId, job.id, 2)
  expect((await closings(job.id)).map(({ outcome }) => outcome)).toEqual(['done', 'reopened'])
  const { stage, days, verbs } = await standing(app, job.id)
  expect({ stage, days }).toEqual({ stage: 'booked', days: [{ day: DAY, hours: '0.50' }] })
  expect(verbs.filter(verb => verb === 'job reopened')).toHaveLength(1)
  expect(await findClosing(app.db, job.id)).toBeUndefined()

  const stale = await tap(helper, job.number, '1')
  expect(stale.status).toBe(409)
  expect((await standing(app, job.id)).stage).toBe('booked')
  expect((await tap(helper, job.number, '3')).status).toBe(303)
  expect((await closings(job.id)).map(({ version }) => version)).toEqual([1, 2, 3])
})

test('what isn’t booked can’t be closed, and what was said is never changed', async () => {
  app.setClock('2026-03-02T15:00:00Z')
  const { number } = await acceptedRequest(app, '1')
  expect((await tap(owner, number)).status).toBe(409)
  expect((await owner.get(`/days/jobs/${number}/close`)).status).toBe(404)
  const job = await bookedJob()
  await tap(owner, job.number)
  const rows = app.db.updateTable('job_closing').set({ note: 'other' }).where('quote_request_id', '=', job.id)
  await expect(rows.execute()).rejects.toThrow('kept as they were made')
})
