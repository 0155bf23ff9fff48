import { afterAll, beforeAll, expect, test } from 'vitest'
import { findFigures } from '../../src/closing/figures.ts'
import { findClosing } from '../../src/closing/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { bookedToday, standing } from '../helpers/bookings.ts'
import { listPacks } from '../helpers/on-hand.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'

let app: TestApp
let owner: Browser
let helper: Browser
let helperId: number

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
  helper = await helperBrowser(app)
  await listPacks(app)
  const account = app.db.selectFrom('account').select('id').where('role', '=', 'helper')
  helperId = (await account.executeTakeFirstOrThrow()).id
})
afterAll(() => app.close())

const TODAY = '2026-03-02'
const DONE = { version: '1', outcome: 'done', firstDay: TODAY, lastDay: TODAY }

const tell = (who: Browser, number: string, fields: Record<string, string>) =>
  who
    .post(`/days/jobs/${number}/went`)
    .type('form')
    .send({ ...DONE, ...fields })

/** What the version that stands says. */
async function toldOf(id: number) {
  const closing = (await findClosing(app.db, id))!
  return { closing, figures: await findFigures(app.db, closing.id) }
}

async function onHand(): Promise<number> {
  const rows = await app.db
    .selectFrom('on_hand')
    .select('units')
    .where('slug', '=', 'shredded-wood')
    .execute()
  return rows.reduce((sum, { units }) => sum + Number(units), 0)
}

test('packs, trips, hours by person and what is left over are kept; said anew is a version of its own', async () => {
  const job = await bookedToday(app)
  const before = await onHand()
  const used = { 'used.0': '12', 'left.0': '2.5', 'goes.0': 'on hand', trips: '2', note: 'Wet ground' }
  const hours = {
    'hours.0.name': 'hugo moss',
    'hours.0.work': '3:30',
    'hours.0.driving': '.5',
    'hours.1.name': 'Cousin Ed',
    'hours.1.yard': '45 min',
  }
  const answer = await tell(helper, job.number, { ...used, ...hours })
  expect(answer.status, answer.text).toBe(303)
  const { closing, figures } = await toldOf(job.id)
  expect(closing).toMatchObject({
    version: 1,
    outcome: 'done',
    as_planned: false,
    trips: 2,
    note: 'Wet ground',
  })
  expect(figures.used).toMatchObject([{ of: 'finish', slug: 'shredded-wood', units: '12.000' }])
  expect(figures.left).toMatchObject([{ units: '2.500', goes: 'on hand' }])
  // 3 h 30 min, half an hour, three quarters.
  expect(figures.hours).toEqual([
    { account_id: helperId, name: 'Hugo Moss', task: 'work', minutes: 210 },
    { account_id: helperId, name: 'Hugo Moss', task: 'driving', minutes: 30 },
    { account_id: null, name: 'Cousin Ed', task: 'yard', minutes: 45 },
  ])
  expect((await standing(app, job.id)).stage).toBe('done')
  expect((await onHand()) - before).toBe(2.5)

  // The same once more changes nothing; said anew, only the difference goes on hand.
  expect((await tell(helper, job.number, { ...used, ...hours })).status).toBe(303)
  expect((await toldOf(job.id)).closing.version).toBe(1)
  await tell(owner, job.number, { ...used, version: '2', 'left.0': '1' })
  expect((await toldOf(job.id)).closing.version).toBe(2)
  expect((await onHand()) - before).toBe(1)
  const kept = await app.db
    .selectFrom('job_hours')
    .select('minutes')
    .where('closing_id', '=', closing.id)
    .execute()
  expect(kept).toHaveLength(3)
  const { verbs } = await standing(app, job.id)
  expect(verbs.filter(verb => verb === 'job told')).toHaveLength(2)
})

test('part of it done: the rest is booked where it has room, and comes first in the queue on its day', async () => {
  const job = await bookedToday(app, '2')
  const rest = { outcome: 'part done', restDay: '2026-03-11', restHours: '1.5' }
  // A Saturday.
  expect((await tell(helper, job.number, { ...rest, restDay: '2026-03-14' })).text).toContain('has no room')
  expect((await standing(app, job.id)).stage).toBe('booked')
  expect((await tell(helper, job.number, { ...rest, restDay: TODAY })).text).toContain('after the last day')
  expect((await tell(helper, job.number, rest)).status).toBe(303)
  const { stage, days } = await standing(app, job.id)
  expect(stage).toBe('part done')
  expect(days).toEqual([
    { day: TODAY, hours: '2.00' },
    { day: '2026-03-11', hours: '1.50' },
  ])
  const row = app.db.selectFrom('quote_request').select(['step', 'due_at']).where('id', '=', job.id)
  // The day begins at midnight in Chicago, six hours behind until March 8, five after.
  expect(await row.executeTakeFirst()).toMatchObject({
    step: 'Load',
    due_at: expect.stringContaining('2026-03-11'),
  })
  const early = await owner.post(`/days/jobs/${job.number}/close`).type('form').send({ version: '2' })
  expect(early.text).toContain('hasn’t come yet')
  // Done sooner than that, after all: the room of the rest is given back.
  await tell(owner, job.number, { version: '2' })
  expect((await standing(app, job.id)).days).toEqual([{ day: TODAY, hours: '2.00' }])
})

test('part of it done, and the rest as planned: the hours, fees and leftovers of the first day stay', async () => {
  const job = await bookedToday(app, '2')
  await tell(owner, job.number, {
    ...{ outcome: 'part done', restDay: '2026-03-11', restHours: '1' },
    ...{ 'hours.0.name': 'Cousin Ed', 'hours.0.work': '2', 'fees.0.amount': '12.50', 'fees.0.words': 'dump' },
    ...{ 'left.0': '1', 'goes.0': 'on hand' },
  })
  app.setClock('2026-03-11T20:00:00Z')
  const closed = await helper.post(`/days/jobs/${job.number}/close`).type('form').send({ version: '2' })
  expect(closed.status, closed.text).toBe(303)
  const { closing, figures } = await toldOf(job.id)
  expect(closing).toMatchObject({ version: 2, outcome: 'done', as_planned: true })
  expect(figures.hours).toMatchObject([{ name: 'Cousin Ed', minutes: 120 }])
  expect(figures.fees).toMatchObject([{ amount: '12.50' }])
  expect(figures.left).toMatchObject([{ units: '1.000' }])
  app.setClock('2026-03-02T15:00:00Z')
})

test('stopped, with what is done of each line, by the owner alone', async () => {
  const job = await bookedToday(app)
  const page = await owner.get(`/days/jobs/${job.number}/close`)
  const fields = [...page.text.matchAll(/name="(share\.[\d.]+)"/g)].map(([, name]) => name!)
  expect(fields.length).toBeGreaterThan(0)
  expect((await helper.get(`/days/jobs/${job.number}/close`)).text).not.toContain('name="share.')
  const half = Object.fromEntries(fields.map(name => [name, '50']))
  expect((await tell(helper, job.number, { ...half, outcome: 'stopped' })).status).toBe(422)
  expect((await tell(owner, job.number, { ...half, [fields[0]!]: '120', outcome: 'stopped' })).status).toBe(
    422,
  )
  expect((await tell(owner, job.number, { ...half, outcome: 'stopped' })).status).toBe(303)
  const { closing, figures } = await toldOf(job.id)
  expect(closing.outcome).toBe('stopped')
  expect(figures.shares.map(({ share }) => share)).toEqual(fields.map(() => '0.5000'))
  expect((await standing(app, job.id)).stage).toBe('done')
})

test('a dump fee is seen by the owner and by whoever typed it, and stays when another mends the rest', async () => {
  const job = await bookedToday(app)
  await tell(owner, job.number, { 'fees.0.amount': '18.50', 'fees.0.words': 'County landfill' })
  const seen = await helper.get(`/days/jobs/${job.number}/close`)
  expect(seen.text).not.toContain('18.50')
  await tell(helper, job.number, { version: '2', 'fees.0.amount': '7', 'fees.0.by': '1' })
  const { figures } = await toldOf(job.id)
  expect(figures.fees).toMatchObject([
    { amount: '18.50', words: 'County landfill' },
    { amount: '7.00', typed_by: helperId },
  ])
  expect((await helper.get(`/days/jobs/${job.number}/close`)).text).toContain('value="7.00"')
})

test('what can’t be read is said beside its field, and nothing is kept', async () => {
  const job = await bookedToday(app)
  const faulty = {
    lastDay: '2026-03-01',
    'used.0': 'lots',
    'hours.0.work': 'all day',
    'hours.1.yard': '1',
    'hours.1.name': '',
    'fees.0.words': 'Landfill',
    trips: '2.5',
    note: 'kept as typed',
  }
  const answer = await tell(owner, job.number, faulty)
  expect(answer.status).toBe(422)
  for (const sentence of [
    'The last day can’t be before the first.',
    'Give a number such as 12 or 2.5.',
    'Give hours such as 3:30 or 3.5.',
    'Say who worked.',
    'Give an amount such as 18.50.',
    'Give a whole number, 200 at most.',
    'kept as typed',
  ])
    expect(answer.text).toContain(sentence)
  const tomorrow = await tell(owner, job.number, { lastDay: '2026-03-03' })
  expect(tomorrow.text).toContain('That day hasn’t come yet.')
  expect(await findClosing(app.db, job.id)).toBeUndefined()
})
