import { afterEach, beforeEach, expect, test } from 'vitest'
import { setUpAddress } from '../../src/first-run/first-run.ts'
import { findRateTable } from '../../src/rates/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness, SET_UP_FIELDS, setUpPath } from '../helpers/people.ts'

let app: TestApp
beforeEach(async () => {
  app = await testApp()
})
afterEach(() => app.close())

async function send(changes: Record<string, string | string[]>) {
  return app
    .browser()
    .post(await setUpPath(app))
    .type('form')
    .send({ ...SET_UP_FIELDS, ...changes })
}

test('sets up the owner, the business and the first rates, and signs the owner in', async () => {
  const { owner } = await openBusiness(app)
  const business = await app.db.selectFrom('business').selectAll().executeTakeFirstOrThrow()
  expect(business).toMatchObject({
    name: 'Fern Beds',
    units: 'us',
    currency: 'USD',
    time_zone: 'America/Chicago',
    labor_hours_a_day: '8.00',
    quote_holds_days: 30,
    answer_within_days: 2,
    working_days: [1, 2, 3, 4, 5],
  })
  const table = await findRateTable(app.db, app.deps.now())
  expect(table?.version).toBe(1)
  expect(table?.body).toMatchObject({ units: 'us', currency: 'USD', minimumCharge: '150', tiers: [] })
  expect(table?.body.finishes.map(finish => [finish.slug, finish.rates])).toEqual([
    ['shredded-wood', [{ lower: '80', upper: '100' }]],
    ['dyed-wood', [{ lower: '90', upper: '110' }]],
    ['bark-nuggets', [{ lower: '100', upper: '130' }]],
    ['pine-straw', [{ lower: '60', upper: '80' }]],
    ['compost', [{ lower: '70', upper: '90' }]],
    ['stone', [{ lower: '150', upper: '190' }]],
  ])
  expect(table?.body.extras).toMatchObject([{ slug: 'edging', lower: '1.5', upper: '2.5' }])
  expect(table?.body.travel).toEqual([
    { postcodes: ['78701', '78702', '78703'], charge: '25', drive: null, driven: null },
  ])
  const settings = await owner.get('/settings')
  expect(settings.status).toBe(200)
  expect(settings.text).toContain('Alice Fern')
})

test('in the end tells what comes next: looking around, and sharing the form', async () => {
  const answer = await send({})
  expect([answer.status, answer.headers.location]).toEqual([303, '/welcome'])
  const cookie = [answer.headers['set-cookie']]
    .flat()
    .map(one => String(one).split(';')[0])
    .join('; ')
  const { status, text } = await app.browser().get('/welcome').set('cookie', cookie)
  expect(status).toBe(200)
  expect(text).toContain(`href="${app.deps.config.publicUrl}/"`)
  for (const there of ['/settings#share', '/rates#not-looked-at', '/settings', '/queue'])
    expect(text).toContain(`href="${there}"`)
})

test('takes figures as people write them, and a business that works in meters', async () => {
  const answer = await send({
    units: 'metric',
    currency: 'eur',
    'rates.shredded-wood.0.lower': '€ 95,50',
    'rates.shredded-wood.0.upper': '1,250.50',
    minimumCharge: '$ 150',
    'travel.0.postcodes': 'sw1a 1aa\nM1*; m1*',
    'travel.0.charge': '',
  })
  expect(answer.status).toBe(303)
  const table = (await findRateTable(app.db, app.deps.now()))!.body
  expect(table).toMatchObject({ units: 'metric', currency: 'EUR', minimumCharge: '150' })
  expect(table.finishes[0]!.rates).toEqual([{ lower: '95.5', upper: '1250.5' }])
  expect(table.travel).toEqual([{ postcodes: ['SW1A 1AA', 'M1*'], charge: '0', drive: null, driven: null }])
})

test('one finish is enough, and no extra', async () => {
  const bare = Object.fromEntries(
    Object.keys(SET_UP_FIELDS)
      .filter(name => /^(rates|extras|travel)\./.test(name))
      .map(name => [name, '']),
  )
  const answer = await send({ ...bare, 'rates.compost.0.lower': '70', 'rates.compost.0.upper': '70' })
  expect(answer.status).toBe(303)
  const table = (await findRateTable(app.db, app.deps.now()))!.body
  expect(table.finishes.map(finish => finish.slug)).toEqual(['compost'])
  expect([table.extras, table.travel]).toEqual([[], []])
})

test('the page is nowhere for another token, and once there is an owner', async () => {
  const path = await setUpPath(app)
  const wrong = `${path.slice(0, -1)}${path.endsWith('A') ? 'B' : 'A'}`
  expect((await app.browser().get(wrong)).status).toBe(404)
  expect((await app.browser().post(wrong).type('form').send(SET_UP_FIELDS)).status).toBe(404)
  expect((await app.browser().get(path)).status).toBe(200)
  await openBusiness(app)
  expect(await setUpAddress(app.deps)).toBeNull()
  expect((await app.browser().get(path)).status).toBe(404)
  expect((await app.browser().post(path).type('form').send(SET_UP_FIELDS)).status).toBe(404)
})

test('of five at the same moment one sets up, and the others are refused kindly', async () => {
  const path = await setUpPath(app)
  const answers = await Promise.all(
    ['a', 'b', 'c', 'd', 'e'].map(name =>
      app
        .browser()
        .post(path)
        .type('form')
        .send({ ...SET_UP_FIELDS, 'owner.email': `${name}@fernbeds.example` }),
    ),
  )
  const statuses = answers.map(answer => answer.status)
  expect(statuses.filter(status => status === 303)).toHaveLength(1)
  expect(statuses.filter(status => status === 409 || status === 404)).toHaveLength(4)
  expect(await app.db.selectFrom('account').select('role').execute()).toEqual([{ role: 'owner' }])
  expect(await app.db.selectFrom('business').select('name').execute()).toHaveLength(1)
  expect(await app.db.selectFrom('rate_table').select('version').execute()).toEqual([{ version: 1 }])
})
