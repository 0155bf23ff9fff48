import { afterEach, beforeEach, expect, test } from 'vitest'
import { bookDay } from '../../src/bookings/booking.ts'
import { json } from '../../src/db/json.ts'
import type { Finish, RateTable } from '../../src/estimate/table/rate-table.ts'
import { findRateTable, requireRateTable } from '../../src/rates/queries.ts'
import { taxOf } from '../estimate/taxes.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, quotedRequest } from '../helpers/bookings.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { putInForce } from '../helpers/rate-tables.ts'
import { bedTold, told } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser

const loose = {
  kind: 'bulk',
  slug: 'loose',
  name: { en: 'Loose', es: 'Suelto' },
  prices: [
    { from: '0', each: '30' },
    { from: '10', each: '28' },
  ],
  least: '0',
  step: '0.01',
  collected: false,
  delivered: { fee: '0', freeFrom: null },
} as const

const finish = (table: RateTable, slug: string) => table.finishes.find(one => one.slug === slug)!
const change = (slug: string, changes: Partial<Finish>) => (table: RateTable) => ({
  ...table,
  finishes: table.finishes.map(one => (one.slug === slug ? { ...one, ...changes } : one)),
})

beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app, { 'costs.wage': '40', 'material.compost': '28' })).owner
  await putInForce(app, change('shredded-wood', { packs: [{ ...loose, prices: [...loose.prices] }] }))
})
afterEach(() => app.close())

const SHREDDED = { 'prices.loose.0': '30', 'prices.loose.1': '28', version: '2' }
const save = (prices: Record<string, string>, slug = 'shredded-wood') =>
  owner.post(`/rates/today/${slug}`).type('form').send(prices)
const wordsOf = (page: string) => page.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')
const versions = async () => (await app.db.selectFrom('rate_table').select('version').execute()).length

test('the queue and the rates lead to every finish, and each to a field for every price of its packs', async () => {
  for (const path of ['/queue', '/rates'])
    expect((await owner.get(path)).text).toContain('href="/rates/today"')
  const finishes = await owner.get('/rates/today')
  expect(wordsOf(finishes.text)).toContain('Loose: $30.00 per yd³, $28.00 from 10 on')
  expect(wordsOf(finishes.text)).toContain('Decorative stone not known')
  expect(finishes.text.match(/href="\/rates\/today\/[a-z-]+"/g)).toHaveLength(6)
  const form = await owner.get('/rates/today/shredded-wood')
  expect(form.text).toMatch(/name="prices\.loose\.0"[^>]* value="30"/)
  expect(form.text).toMatch(/name="prices\.loose\.1"[^>]* value="28"/)
  expect((await owner.get('/rates/today/compost')).text).toMatch(/name="materialCost"[^>]* value="28"/)
})

test('a new price makes the next version, with nothing else in it changed', async () => {
  const before = (await findRateTable(app.db, app.deps.now()))!
  const answer = await save({ ...SHREDDED, 'prices.loose.1': '$29.50' })
  expect([answer.status, answer.headers.location]).toEqual([303, '/rates/today/shredded-wood/jobs?version=3'])
  const after = (await findRateTable(app.db, app.deps.now()))!
  expect(after.version).toBe(3)
  expect(finish(after.body, 'shredded-wood').packs[0]!.prices).toEqual([
    { from: '0', each: '30' },
    { from: '10', each: '29.5' },
  ])
  expect(change('shredded-wood', { packs: finish(before.body, 'shredded-wood').packs })(after.body)).toEqual(
    before.body,
  )
  expect(await requireRateTable(app.db, before.id)).toEqual(before)
  const page = await owner.get(answer.headers.location!)
  expect(wordsOf(page.text)).toContain('Loose, from 10 on: was $28.00, now $29.50 per yd³')
})

test('a finish without packs gets another cost per volume', async () => {
  await save({ materialCost: '31.25', version: '2' }, 'compost')
  expect(finish((await findRateTable(app.db, app.deps.now()))!.body, 'compost').materialCost).toBe('31.25')
})

test('the same form twice, one after the other or at once, makes one version', async () => {
  const form = { ...SHREDDED, 'prices.loose.0': '33' }
  const answers = await Promise.all([save(form), save(form), save(form)])
  for (const answer of [...answers, await save(form)])
    expect([answer.status, answer.headers.location]).toEqual([
      303,
      '/rates/today/shredded-wood/jobs?version=3',
    ])
  expect(await versions()).toBe(3)
})

test('nothing different makes no version', async () => {
  const answer = await save({ ...SHREDDED, 'prices.loose.0': '30.00' })
  expect([answer.status, answer.headers.location]).toEqual([303, '/rates/today/shredded-wood'])
  expect(await versions()).toBe(2)
})

test('whoever saves over a version that came meanwhile is refused, and keeps what was typed', async () => {
  await putInForce(app, table => ({ ...table, minimumCharge: '175' }))
  const late = await save({ ...SHREDDED, 'prices.loose.0': '33' })
  expect(late.status).toBe(409)
  expect(late.text).toContain('The rates changed after you opened the page')
  expect(late.text).toMatch(/name="prices\.loose\.0"[^>]* value="33"/)
  expect(late.text).toContain('name="version" value="3"')
  expect(await versions()).toBe(3)
  expect((await save({ ...SHREDDED, 'prices.loose.0': '33', version: '3' })).status).toBe(303)
})

test('a figure that can’t be read is refused beside its field, and what was typed stays', async () => {
  for (const typed of ['dear', '-1', '', '1.23456', '10000000']) {
    const answer = await save({ ...SHREDDED, 'prices.loose.0': '31', 'prices.loose.1': typed })
    expect([typed, answer.status]).toEqual([typed, 422])
    expect(answer.text).toContain('id="prices-loose-1-error"')
    expect(answer.text).toContain('<a href="#prices-loose-1">')
    expect(answer.text).toMatch(/name="prices\.loose\.0"[^>]* value="31"/)
    expect(answer.text).toMatch(new RegExp(`name="prices\\.loose\\.1"[^>]* value="${typed}"`))
  }
  expect(await versions()).toBe(2)
})

test('a form whose version is none is answered as an older one, and keeps what was typed', async () => {
  for (const version of ['', 'x', '-1', '1e3', '9'.repeat(30)]) {
    const answer = await save({ ...SHREDDED, 'prices.loose.0': '31.5', version })
    expect([version, answer.status]).toEqual([version, 409])
    expect(answer.text).toMatch(/name="prices\.loose\.0"[^>]* value="31\.5"/)
  }
  expect(await versions()).toBe(2)
})

test('a finish or a version that isn’t there is not found', async () => {
  for (const path of [
    'granite',
    'granite/jobs?version=2',
    'stone/jobs',
    'stone/jobs?version=1',
    'stone/jobs?version=9',
  ])
    expect([path, (await owner.get(`/rates/today/${path}`)).status]).toEqual([path, 404])
  expect((await save(SHREDDED, 'granite')).status).toBe(404)
})

// 81 ft³ are 3 yd³: 270.00 at 90; 3.15 yd³ to order are 94.50 at 30, and 3 labor hours at 40 are 120.00.
const beds = { told: told(bedTold({ sizes: { length: '27 ft', width: '12 ft' } })) }
const margin = (share: string) => (table: RateTable) => ({
  ...table,
  floors: { ...table.floors, margin: share },
})

test('says what it makes of the cost and the margin of booked and quoted jobs, and which floor they fall under', async () => {
  await putInForce(app, margin('0.20'))
  const booked = await acceptedRequest(app, '3', beds)
  await bookDay(app.deps, booked.id, '2026-03-03')
  await quotedRequest(app, '4', { ...beds, name: 'Dora Quick' })
  await quotedRequest(app, '3', { told: told(bedTold({ finish: 'compost' })), name: 'Not Touched' })
  const answer = await save({ ...SHREDDED, version: '3', 'prices.loose.0': '32' })
  const words = wordsOf((await owner.get(answer.headers.location!)).text)
  const [, bookedWords, quotedWords] = /Booked jobs that use it (.*) Quoted, not booked (.*)/.exec(words)!
  // (270 − 214.50) / 270 is 20.56%; 3.15 × 32 are 100.80, so 220.80 leave 18.22%.
  expect(bookedWords).toContain(`Carol Reyes earns $6.30 less ${booked.number} work day Tuesday, March 3`)
  expect(bookedWords).toContain('cost was $214.50, now $220.80 margin was 20.6%, now 18.2%: 2.4 points less')
  expect(bookedWords).toContain('The margin is below your minimum of 20.0%.')
  // An hour more, as the contractor has it: (270 − 254.50) / 270 is 5.74%, and 260.80 leave 3.41%.
  expect(quotedWords).toContain('cost was $254.50, now $260.80 margin was 5.7%, now 3.4%: 2.3 points less')
  expect(quotedWords).toContain('below your minimum of 20.0%. It was before.')
  expect(words).not.toContain('Not Touched')
})

// On top of 270.00 the tax changes nothing; in it are 20.00, and (250 − 214.50) / 250 is 14.2%, less 6.30 11.68%.
test.each([
  ['without', '20.6%, now 18.2%'],
  ['with', '14.2%, now 11.7%'],
] as const)(
  'takes the price before tax, of prices %s it, and leaves out what is settled',
  async (prices, words) => {
    await putInForce(app, table => ({ ...table, tax: taxOf({ prices }) }))
    const ended = await quotedRequest(app, '3', { ...beds, name: 'Gone Away' })
    await app.db.updateTable('quote_request').set({ stage: 'lapsed' }).where('id', '=', ended.id).execute()
    await quotedRequest(app, '3', beds)
    const answer = await save({ ...SHREDDED, version: '3', 'prices.loose.0': '32' })
    const page = wordsOf((await owner.get(answer.headers.location!)).text)
    expect(page).toContain(`margin was ${words}`)
    expect(page).toContain('No booked job uses it.')
    expect(page).not.toContain('Gone Away')
  },
)

test('says so where a job’s cost isn’t known, and where it became known', async () => {
  const both = told(bedTold({ finish: 'stone' }), bedTold({ finish: 'compost' }))
  await quotedRequest(app, '3', { told: both })
  const still = await save({ materialCost: '30', version: '2' }, 'compost')
  expect(wordsOf((await owner.get(still.headers.location!)).text)).toContain('cost not known')
  const known = await save({ materialCost: '60', version: '3' }, 'stone')
  expect(wordsOf((await owner.get(known.headers.location!)).text)).toMatch(/cost \$[\d.]+, not known before/)
})

/** A version that comes into force in ten days, in which the loose pack costs 50. */
async function letOneWait(): Promise<void> {
  const { id } = await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow()
  const { body } = (await findRateTable(app.db, app.deps.now()))!
  const prices = [{ from: '0', each: '50' }]
  await app.db
    .insertInto('rate_table')
    .values({
      version: 3,
      body: json(change('shredded-wood', { packs: [{ ...loose, prices }] })(body)),
      made_at: app.deps.now().toString(),
      made_by: id,
      in_force_from: app.deps.now().add({ hours: 240 }).toString(),
    })
    .execute()
}

test('a version that waits is told of, its place is taken, and prices are compared with those in force', async () => {
  await letOneWait()
  const form = await owner.get('/rates/today/shredded-wood')
  expect(wordsOf(form.text)).toContain('Version 3 is set to take effect on')
  expect(form.text).toContain('name="version" value="3"')
  const answer = await save({ ...SHREDDED, 'prices.loose.0': '33', version: '3' })
  expect(answer.headers.location).toBe('/rates/today/shredded-wood/jobs?version=4')
  expect(wordsOf((await owner.get(answer.headers.location!)).text)).toMatch(/was \$30\.00, now \$33\.00/)
})

test('the same form twice makes one version after another was called off, too', async () => {
  await letOneWait()
  await owner.post('/rates/versions/3/call-off')
  const form = { ...SHREDDED, 'prices.loose.0': '33' }
  for (const answer of [await save(form), await save(form)])
    expect([answer.status, answer.headers.location]).toEqual([
      303,
      '/rates/today/shredded-wood/jobs?version=4',
    ])
})
