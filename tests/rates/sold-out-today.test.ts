import { afterEach, beforeEach, expect, test } from 'vitest'
import { findRateTable } from '../../src/rates/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { putInForce } from '../helpers/rate-tables.ts'

let app: TestApp
let owner: Browser

beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app, { 'costs.wage': '40', 'material.compost': '28' })).owner
})
afterEach(() => app.close())

const save = (slug: string, fields: Record<string, string>) =>
  owner.post(`/rates/today/${slug}`).type('form').send(fields)
const inForce = async () => (await findRateTable(app.db, app.deps.now()))!
const finish = async (slug: string) => (await inForce()).body.finishes.find(one => one.slug === slug)!
const SOLD_OUT = { materialCost: '28', soldOut: 'yes', version: '1' }

test('sold out alone makes one version, however often the form is sent, and nothing else is different', async () => {
  const before = await inForce()
  expect((await owner.get('/rates/today/compost')).text).not.toMatch(/name="soldOut"[^>]* checked/)
  const answers = await Promise.all([1, 2, 3].map(() => save('compost', SOLD_OUT)))
  for (const answer of [...answers, await save('compost', SOLD_OUT)])
    expect([answer.status, answer.headers.location]).toEqual([303, '/rates/today/compost/jobs?version=2'])
  const after = await inForce()
  expect(after.version).toBe(2)
  const finishes = before.body.finishes.map(one => (one.slug === 'compost' ? { ...one, soldOut: true } : one))
  expect(after.body).toEqual({ ...before.body, finishes })
  expect((await owner.get('/rates/today')).text).toMatch(
    /Compost<\/a><\/span>\s*<span class="row-facts"><span[^>]*>sold out</,
  )
  expect((await owner.get('/rates/today/compost')).text).toMatch(/name="soldOut"[^>]* checked/)
  const jobs = (await owner.get('/rates/today/compost/jobs?version=2')).text
  expect(jobs).toContain('It’s sold out now')
  expect(jobs).not.toContain('changed none of its prices')
})

test('it is saved with a price in the same version, and taken back', async () => {
  await save('compost', { ...SOLD_OUT, materialCost: '31' })
  expect(await finish('compost')).toMatchObject({ soldOut: true, materialCost: '31' })
  const back = await save('compost', { materialCost: '31', version: '2' })
  expect(back.headers.location).toBe('/rates/today/compost/jobs?version=3')
  expect(await finish('compost')).toMatchObject({ soldOut: false, materialCost: '31' })
  expect((await owner.get(back.headers.location!)).text).toContain('It’s no longer sold out.')
})

test('a price is no other one for the zeros it ends in', async () => {
  await putInForce(app, table => ({
    ...table,
    finishes: table.finishes.map(one => (one.slug === 'compost' ? { ...one, materialCost: '28.50' } : one)),
  }))
  const saved = await save('compost', { ...SOLD_OUT, materialCost: '28.5', version: '2' })
  const jobs = (await owner.get(saved.headers.location!)).text
  expect(jobs).toContain('It’s sold out now')
  expect(jobs).not.toContain('$28.50')
})

test('a finish whose price isn’t known can be sold out all the same, and it stays unknown', async () => {
  expect((await save('stone', { materialCost: '', soldOut: 'yes', version: '1' })).status).toBe(303)
  expect(await finish('stone')).toMatchObject({ soldOut: true, materialCost: null })
})

test('the last one that homeowners can pick can’t be sold out; what was typed stays', async () => {
  await putInForce(app, table => ({
    ...table,
    finishes: table.finishes.map((one, index) => ({
      ...one,
      offered: one.slug === 'compost' || index % 2 === 0,
      soldOut: one.slug !== 'compost' && index % 2 === 0,
    })),
  }))
  const refused = await save('compost', { ...SOLD_OUT, materialCost: '33', version: '2' })
  expect(refused.status).toBe(422)
  expect(refused.text).toMatch(/id="soldOut-error">Then homeowners couldn’t pick any material/)
  expect(refused.text).toMatch(/name="soldOut"[^>]* checked/)
  expect(refused.text).toMatch(/name="materialCost"[^>]* value="33"/)
  expect((await inForce()).version).toBe(2)
  // What homeowners aren't shown may be sold out.
  expect((await save('dyed-wood', { materialCost: '', soldOut: 'yes', version: '2' })).status).toBe(303)
})

test('whoever says it over a version that came meanwhile is refused, and the tick stays', async () => {
  await putInForce(app, table => ({ ...table, minimumCharge: '175' }))
  const late = await save('compost', SOLD_OUT)
  expect(late.status).toBe(409)
  expect(late.text).toMatch(/name="soldOut"[^>]* checked/)
  expect((await finish('compost')).soldOut).toBe(false)
})
