import { afterEach, beforeEach, expect, test } from 'vitest'
import { isUniqueViolation } from '../../src/db/violations.ts'
import { findRateTable, requireRateTable } from '../../src/rates/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness, SET_UP_FIELDS } from '../helpers/people.ts'
import { putInForce } from '../helpers/rate-tables.ts'

let app: TestApp
let owner: Browser
beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterEach(() => app.close())

const RATES = Object.fromEntries(
  Object.entries(SET_UP_FIELDS).filter(([name]) =>
    /^(rates|extras|travel)\.|^minimum|^laborHours/.test(name),
  ),
)

const save = (changes: Record<string, string>, version = '1') =>
  owner
    .post('/rates')
    .type('form')
    .send({ ...RATES, version, ...changes })

const versions = async () =>
  (await app.db.selectFrom('rate_table').select('version').orderBy('version').execute()).map(
    row => row.version,
  )

test('is simple first: what more it could hold is folded, and says what it would add', async () => {
  const page = (await owner.get('/rates')).text
  const unfolded = page.replace(/<details[\s\S]*?<\/details>/g, '')
  const fields = [...unfolded.matchAll(/<(?:input|textarea)[^>]* name="([^"]+)"/g)].map(([, name]) => name)
  const finishes = [...new Set(Object.keys(RATES).map(name => /^rates\.(.+)\.0\.lower$/.exec(name)?.[1]))]
  const handful = finishes.filter(Boolean).flatMap(slug => [`rates.${slug}.0.lower`, `rates.${slug}.0.upper`])
  const asked = fields.filter(name => name !== 'version' && !name!.startsWith('rates.'))
  expect(fields).toEqual(expect.arrayContaining(handful))
  expect(asked).toEqual(['minimumCharge', 'laborHoursPerVolume', 'travel.0.postcodes', 'travel.0.charge'])
  const folded = [...page.matchAll(/<summary>([\s\S]*?)<\/summary>/g)].map(([, summary]) => summary)
  expect(folded.filter(summary => /class="adds">[A-Z]/.test(summary!)).length).toBe(9)
  expect(page).toContain('Put in your costs to see pay per hour')
  expect(page).toContain('href="/rates/draft/labour"')
})

test('shows the rates in force, and what stands behind the ranges with its source', async () => {
  const page = await owner.get('/rates')
  expect(page.status).toBe(200)
  expect(page.text).toContain('Version 1 is in force.')
  expect(page.text).toMatch(/name="rates\.pine-straw\.0\.lower"[^>]*value="60"/)
  expect(page.text).toContain('per foot of edge')
  expect(page.text).toContain('name="rates.stone.0.upper"')
  expect(page.text).toMatch(/A pace<\/th><td>2\.5 ft<\/td><td>US Army: 30 in/)
  expect(page.text).toMatch(
    /is, measured by eye<\/th><td>14%, with 50% of that the same for every length<\/td><td>Invented, to start with/,
  )
})

test('saving makes a new version and leaves the old one as it was', async () => {
  const before = await findRateTable(app.db, app.deps.now())
  const answer = await save({
    'rates.compost.0.upper': '$95',
    'rates.stone.0.lower': '',
    'rates.stone.0.upper': '',
  })
  expect([answer.status, answer.headers.location]).toEqual([303, '/rates'])
  const after = await findRateTable(app.db, app.deps.now())
  expect(after?.version).toBe(2)
  expect(after?.body.finishes.find(finish => finish.slug === 'compost')?.rates).toEqual([
    { lower: '70', upper: '95' },
  ])
  expect(after?.body.finishes.map(finish => finish.slug)).not.toContain('stone')
  expect(await requireRateTable(app.db, before!.id)).toEqual(before)
  expect((await owner.get('/rates')).text).toContain('Saved: version 2 is in force.')
})

test('a finish that was left out can be offered again', async () => {
  await save({ 'rates.stone.0.lower': '', 'rates.stone.0.upper': '' })
  await save({}, '2')
  const table = await findRateTable(app.db, app.deps.now())
  expect(table?.version).toBe(3)
  expect(table?.body.finishes.at(-1)).toMatchObject({ slug: 'stone', hatch: 'pebbles' })
})

test('nothing different makes no new version', async () => {
  expect((await save({ minimumCharge: '$150.00' })).status).toBe(303)
  expect(await versions()).toEqual([1])
  expect((await owner.get('/rates')).text).toContain('Nothing was different')
})

test('costs are taken with the rest, and can be left out again', async () => {
  await save({ 'costs.wage': '32.50', 'material.compost': '28' })
  const table = (await findRateTable(app.db, app.deps.now()))!.body
  expect(table.costs.wage).toBe('32.5')
  expect(table.finishes.map(finish => [finish.slug, finish.materialCost])).toContainEqual(['compost', '28'])
  await save({}, '2')
  expect((await findRateTable(app.db, app.deps.now()))!.body.costs.wage).toBeNull()
})

test('larger jobs get rates of their own, beginning with those of the size before', async () => {
  await save({ tiers: '5; 10' })
  const [first] = (await findRateTable(app.db, app.deps.now()))!.body.finishes
  expect(first!.rates).toEqual(Array(3).fill({ lower: '80', upper: '100' }))
  const page = await owner.get('/rates')
  expect(page.text).toContain('from 10 yd³')
  expect(page.text).toContain('name="rates.shredded-wood.2.lower"')
})

test('a second list of ZIPs has a charge of its own, and one ZIP has one charge', async () => {
  await save({ 'travel.1.postcodes': '787*, 78701', 'travel.1.charge': '40' })
  expect((await findRateTable(app.db, app.deps.now()))!.body.travel).toEqual([
    { postcodes: ['78701', '78702', '78703'], charge: '25', drive: null, driven: null },
    { postcodes: ['787*'], charge: '40', drive: null, driven: null },
  ])
})

test('refuses a fault beside it, and keeps what was typed', async () => {
  const faults: [string, Record<string, string>][] = [
    ['rates-compost-0-upper', { 'rates.compost.0.upper': '60' }],
    ['rates-compost-0-lower', { 'rates.compost.0.lower': 'seventy' }],
    ['rates-compost-0-upper', { 'rates.compost.0.upper': '' }],
    ['rates-compost-0-upper', { 'rates.compost.0.lower': '0', 'rates.compost.0.upper': '0' }],
    ['extras-edging-upper', { 'extras.edging.upper': '1' }],
    ['minimumCharge', { minimumCharge: '1.005' }],
    ['laborHoursPerVolume', { laborHoursPerVolume: '101' }],
    ['tiers', { tiers: '10; 5' }],
    ['tiers', { tiers: '0; 5' }],
    ['tiers', { tiers: '1; 2; 3; 4; 5; 6' }],
    ['travel-0-postcodes', { 'travel.0.postcodes': '787**' }],
    ['costs-wage', { 'costs.wage': 'dear' }],
    ['material-compost', { 'material.compost': '-1' }],
  ]
  for (const [id, changes] of faults) {
    const answer = await save({ 'rates.stone.0.upper': '191.25', ...changes })
    expect([id, answer.status]).toEqual([id, 422])
    expect(answer.text).toMatch(/<title>Error: Rates/)
    expect(answer.text).toContain(`<a href="#${id}">`)
    expect(answer.text).toContain(`id="${id}-error"`)
    expect(answer.text).toContain('value="191.25"')
  }
  expect(await versions()).toEqual([1])
})

test('refuses to leave no finish at all', async () => {
  const none = Object.fromEntries(
    Object.keys(RATES)
      .filter(name => name.startsWith('rates.'))
      .map(name => [name, '']),
  )
  expect((await save(none)).status).toBe(422)
})

test('who saves over a version that is no longer in force keeps what was typed, and can save it after all', async () => {
  await save({ minimumCharge: '175' })
  const late = await save({ minimumCharge: '199' })
  expect(late.status).toBe(409)
  expect(late.text).toMatch(/<title>Error: Rates/)
  expect(late.text).toContain('The rates changed after you opened the page')
  expect(late.text).toContain('value="199"')
  expect(late.text).toMatch(/minimum charge<\/th><td>\$175<\/td><td>\$199</)
  expect(late.text).toContain('name="version" value="2"')
  expect(await versions()).toEqual([1, 2])
  expect((await save({ minimumCharge: '199' }, '2')).status).toBe(303)
})

test('of five that save at the same moment one version comes', async () => {
  const answers = await Promise.all([1, 2, 3, 4, 5].map(n => save({ minimumCharge: String(200 + n) })))
  expect(answers.map(answer => answer.status).sort()).toEqual([303, 409, 409, 409, 409])
  expect(await versions()).toEqual([1, 2])
})

test('the database itself refuses to change or drop a version, or to number two alike', async () => {
  await expect(app.db.updateTable('rate_table').set({ version: 9 }).execute()).rejects.toThrow(
    'kept as they were made',
  )
  await expect(app.db.deleteFrom('rate_table').execute()).rejects.toThrow('kept as they were made')
  const copy = app.store.executeSql(
    'insert into rate_table (version, body, made_at, made_by) select version, body, made_at, made_by from rate_table',
  )
  expect(await copy.catch(error => isUniqueViolation(error, 'rate_table_version_key'))).toBe(true)
})

test('a finish that isn’t offered any more is no substitute either, and the last to be picked must stay', async () => {
  await putInForce(app, table => ({
    ...table,
    finishes: table.finishes.map(one => ({
      ...one,
      offered: one.slug !== 'compost',
      soldOut: one.slug === 'pine-straw',
      substitutes: one.slug === 'compost' ? ['stone', 'pine-straw'] : [],
    })),
  }))
  const without = (...slugs: string[]) =>
    Object.fromEntries(slugs.flatMap(slug => ['lower', 'upper'].map(end => [`rates.${slug}.0.${end}`, ''])))
  expect((await save(without('stone'), '2')).status).toBe(303)
  const { body } = (await findRateTable(app.db, app.deps.now()))!
  expect(body.finishes.find(({ slug }) => slug === 'compost')!.substitutes).toEqual(['pine-straw'])
  const refused = await save(without('stone', 'shredded-wood', 'dyed-wood', 'bark-nuggets'), '3')
  expect(refused.status).toBe(422)
  expect(refused.text).toMatch(
    /id="rates-shredded-wood-0-lower-error">Give rates for at least one material that/,
  )
  expect(await versions()).toEqual([1, 2, 3])
})
