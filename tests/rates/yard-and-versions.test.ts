import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Pack } from '../../src/estimate/table/pack.ts'
import { findRateTable } from '../../src/rates/queries.ts'
import { findWaiting } from '../../src/rates/versions/waiting.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { putInForce } from '../helpers/rate-tables.ts'
import { drafting } from './draft/drafting.ts'

let app: TestApp
let owner: Browser
let draft: ReturnType<typeof drafting>
beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app, { 'costs.wage': '40', 'material.compost': '28' })).owner
  draft = drafting(app, owner)
})
afterEach(() => app.close())

const finish = async (slug: string) =>
  (await findRateTable(app.db, app.deps.now()))!.body.finishes.find(one => one.slug === slug)!
const bag = (slug: string, each: string): Pack => ({
  kind: 'bag',
  slug,
  name: { en: slug, es: slug },
  holds: '2',
  weightWet: null,
  prices: [{ from: '0', each }],
  least: '1',
  step: '1',
  collected: true,
  delivered: null,
})

test('a price that can’t be read doesn’t hide that somebody else saved meanwhile', async () => {
  await putInForce(app, table => ({
    ...table,
    finishes: table.finishes.map(one =>
      one.slug === 'stone' ? { ...one, packs: [bag('small', '4'), bag('large', '7')] } : one,
    ),
  }))
  const path = '/rates/today/stone'
  const mine = await draft.formOf(path, { 'prices.small.0': '5x5' })
  await draft.post(path, await draft.formOf(path, { 'prices.large.0': '9' }))
  const refused = await draft.post(path, mine)
  expect(refused.status).toBe(422)
  const version = /name="version" value="(\d+)"/.exec(refused.text)![1]!
  const again = await draft.post(path, { ...mine, 'prices.small.0': '5', version })
  expect(again.status).toBe(409)
  const [, large] = (await finish('stone')).packs
  expect(large!.prices[0]!.each).toBe('9')
})

test('what a new price changed stays the same after the day of a version whose place it took', async () => {
  await draft.saveSection('finish.compost', { materialCost: '40' })
  await draft.putInForce('2026-03-05')
  const saved = await draft.post('/rates/today/compost', { materialCost: '31', version: '2' })
  expect(saved.headers.location).toBe('/rates/today/compost/jobs?version=3')
  const was = async () => {
    const { text } = await owner.get(saved.headers.location!)
    return ['$28', '$40'].filter(price => text.includes(price))
  }
  expect(await was()).toEqual(['$28'])
  app.setClock('2026-03-06T15:00:00Z')
  expect(await was()).toEqual(['$28'])
})

test('a version that waits is told, however many newer ones were called off', async () => {
  await draft.saveSection('prices', { minimumCharge: '170' })
  await draft.putInForce('2026-06-01')
  const first = await app.db
    .selectFrom('rate_table')
    .selectAll()
    .where('version', '=', 2)
    .executeTakeFirstOrThrow()
  for (let version = 3; version <= 22; version++) {
    const { body, made_at, made_by } = first
    const row = { version, body: JSON.stringify(body) as never, made_at, made_by }
    await app.db
      .insertInto('rate_table')
      .values({ ...row, in_force_from: '2026-07-01T05:00:00Z' })
      .execute()
    expect((await draft.post(`/rates/versions/${version}/call-off`)).status).toBe(303)
  }
  expect((await findWaiting(app.db, app.deps.now())).map(({ version }) => version)).toEqual([2])
})

test('a version isn’t given up in words while calling a newer one off would bring it back', async () => {
  for (const [minimumCharge, day] of [
    ['170', '2026-03-12'],
    ['180', '2026-03-06'],
  ] as const) {
    await draft.saveSection('prices', { minimumCharge })
    await draft.putInForce(day)
  }
  const told = (await owner.get('/rates/versions/2')).text
  expect(told).toContain('only if you cancel the newer one, set for Friday, March 6, 2026')
  expect(told).toContain('Cancel version 2')
  expect((await owner.get('/rates')).text).not.toContain('Version 2 waits')
  await draft.post('/rates/versions/3/call-off')
  app.setClock('2026-03-13T15:00:00Z')
  expect((await findRateTable(app.db, app.deps.now()))!.version).toBe(2)
  expect(told).not.toContain('Never came into force')
})
