import { afterEach, beforeEach, expect, test } from 'vitest'
import { findRateTable } from '../../src/rates/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { quotedRequest } from '../helpers/bookings.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { putInForce } from '../helpers/rate-tables.ts'
import { bedTold, told } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser

beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app, { 'costs.wage': '40', 'material.compost': '30' })).owner
})
afterEach(() => app.close())

const save = (fields: Record<string, string>, slug = 'compost') =>
  owner
    .post(`/rates/today/${slug}`)
    .type('form')
    .send({ version: '1', ...fields })
const takeBack = (version: number, slug = 'compost') =>
  owner
    .post(`/rates/today/${slug}/take-back`)
    .type('form')
    .send({ version: String(version) })
const inForce = async () => (await findRateTable(app.db, app.deps.now()))!
const costOf = async (slug: string) =>
  (await inForce()).body.finishes.find(one => one.slug === slug)!.materialCost
const versions = async () => (await app.db.selectFrom('rate_table').select('version').execute()).length

test('a price of more than twice or less than half the last is asked about, and saved once it is confirmed', async () => {
  for (const [typed, words] of [
    ['60.01', '$60.01? It was $30.00.'],
    ['3', '$3.00? It was $30.00.'],
  ] as const) {
    const asked = await save({ materialCost: typed })
    expect(asked.status).toBe(422)
    expect(asked.text).toContain(words)
    expect(asked.text).toMatch(new RegExp(`name="sure.materialCost" value="${typed}"(?![^>]*checked)`))
  }
  // What was confirmed is one price: another one is asked about again.
  expect((await save({ materialCost: '3.5', 'sure.materialCost': '3' })).status).toBe(422)
  expect(await versions()).toBe(1)
  expect((await save({ materialCost: '3', 'sure.materialCost': '3' })).status).toBe(303)
  expect(await costOf('compost')).toBe('3')
})

test('twice, half and a first price are not asked about', async () => {
  expect((await save({ materialCost: '60' })).status).toBe(303)
  expect((await save({ materialCost: '30', version: '2' })).status).toBe(303)
  expect((await save({ materialCost: '500', version: '3' }, 'stone')).status).toBe(303)
})

test('a price is taken back once, with a tap, and the one before holds again', async () => {
  const before = (await inForce()).body
  const saved = await save({ materialCost: '33' })
  expect((await owner.get(saved.headers.location!)).text).toContain('/rates/today/compost/take-back')
  for (const answer of [await takeBack(2), await takeBack(2)])
    expect([answer.status, answer.headers.location]).toEqual([303, '/rates/today/compost'])
  expect(await versions()).toBe(3)
  expect((await inForce()).body).toEqual(before)
})

test('a first price is taken back to not known', async () => {
  await save({ materialCost: '31' }, 'stone')
  await takeBack(2, 'stone')
  expect(await costOf('stone')).toBeNull()
})

test('a price that something was priced with stays, and so does one that a newer version has taken over', async () => {
  const saved = await save({ materialCost: '33' })
  await quotedRequest(app, '3', { told: told(bedTold({})) })
  expect((await owner.get(saved.headers.location!)).text).not.toContain('take-back')
  expect((await takeBack(2)).status).toBe(409)
  await save({ materialCost: '35', version: '2' })
  await putInForce(app, table => ({ ...table, minimumCharge: '175' }))
  expect((await takeBack(3)).status).toBe(409)
  expect((await takeBack(1)).status).toBe(409)
  expect([await versions(), await costOf('compost')]).toEqual([4, '35'])
})

test('the page says that this is what you pay, and where what you charge is changed', async () => {
  const page = (await owner.get('/rates/today/compost')).text
  expect(page).toContain('This is what you pay. What you charge stays the same')
  expect(page).toContain('href="/rates/draft/finish.compost"')
})
