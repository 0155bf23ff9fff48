import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Around } from '../../src/http/render.ts'
import { findRateTable } from '../../src/rates/queries.ts'
import { readBedsForm, toldOf } from '../../src/requests/form.ts'
import { openTable } from '../../src/requests/open-table.ts'
import { LONG, unitsOfForm, unitsOfTold } from '../../src/requests/units.ts'
import { type Workings, workings } from '../../src/requests/workings.ts'
import { costTable } from '../estimate/cost-priced.ts'
import { testTable } from '../estimate/jobs.ts'
import { bulk } from '../estimate/packs/made.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { manyBeds, manyBedsTyped } from '../helpers/many-beds.ts'
import { openBusiness } from '../helpers/people.ts'

const plain = testTable()
const TYPED = { ...manyBedsTyped(40), 'extras[]': 'edging', postcode: '78701' }

let app: TestApp
let around: Around
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  around = {
    language: 'es',
    carriedLanguage: null,
    englishOnly: false,
    assets: app.deps.assets.addresses,
    business: (await app.db.selectFrom('business').selectAll().executeTakeFirst())!,
    account: null,
    pages: null,
    path: '/',
    demo: true,
    flash: 'Said.',
  }
})
afterAll(() => app.close())

/** What comes of the same asked for here and in a thread. */
async function both<Name extends keyof Workings>(name: Name, asked: object) {
  const { body } = (await findRateTable(app.db, app.deps.now()))!
  const here = workings[name] as (asked: unknown, table: unknown) => unknown
  return [here(asked, openTable(body)), await app.deps.load.threads.run(name, asked, body)]
}

test('forty beds come to the same pages and the same answer here and in a thread', async () => {
  const form = readBedsForm(TYPED, openTable((await findRateTable(app.db, app.deps.now()))!.body))
  const carried = [['name', 'Carol Reyes']]
  const contact = { name: '', phone: '', email: '', street: '', postcode: '78701', preferredTimes: '' }
  const [page, elsewhere] = await both('form', { form, showFaults: true, carried, around })
  expect(page).toContain('Jardinera 40')
  expect(elsewhere).toBe(page)
  for (const [name, asked] of [
    ['live', { form, around }],
    ['contact', { form, contact, submissionKey: 'key', errors: { name: 'Who?' }, around }],
    ['taking', { told: toldOf(form), shown: '1 2 3', shownPostcode: '' }],
    ['ballpark', { body: { beds: manyBeds(40), narrower: true }, language: 'en' }],
    ['ballpark', { body: { beds: [{}] }, language: 'es' }],
  ] as const) {
    const [here, there] = await both(name, asked)
    expect(there).toEqual(here)
    expect(JSON.stringify(here).length).toBeGreaterThan(200)
  }
})

test('forty beds in an address are drawn in a thread, as the page of the form', async () => {
  const form = readBedsForm(TYPED, openTable((await findRateTable(app.db, app.deps.now()))!.body))
  const query = new URLSearchParams(TYPED).toString()
  expect(unitsOfForm(TYPED, 'form', plain)).toBeGreaterThan(LONG)
  const answer = await app.browser().get(`/?${query}`)
  const here = { ...around, language: 'en', demo: false, flash: null }
  const [page] = await both('form', { form, showFaults: false, carried: [], around: here })
  expect(answer.status).toBe(200)
  expect(answer.text).toBe(page)
})

test('ten beds that follow the typing are charged no more than the budget is reasoned with', () => {
  expect(unitsOfForm(manyBedsTyped(10), 'live', plain)).toBeLessThan(8)
})

test('what is little is worked out here', () => {
  expect(unitsOfForm(manyBedsTyped(1), 'form', plain)).toBeLessThan(LONG)
  expect(unitsOfForm(manyBedsTyped(3), 'live', plain)).toBeLessThan(LONG)
  expect(unitsOfTold({ beds: manyBeds(3) }, plain)).toBeLessThan(LONG)
})

test('work is told before it is done: by beds, by the figures of lists, by what would narrow the range', () => {
  const [bed] = manyBeds(1)
  const list = { ...bed, shape: 'radii', sizes: { radii: Array.from({ length: 99 }, () => '4.5') } }
  const units = [
    { beds: [bed] },
    { beds: manyBeds(10), narrower: false },
    { beds: manyBeds(10) },
    { beds: manyBeds(40), narrower: true },
    { beds: Array.from({ length: 10 }, () => list), narrower: true },
  ].map(body => unitsOfTold(body, plain))
  expect(units).toEqual([...units].sort((a, b) => a - b))
  // More entries than are read aren't worked out, whatever they are.
  expect(unitsOfTold({ beds: Array(5000).fill(bed) }, plain)).toBe(
    unitsOfTold({ beds: Array(40).fill(bed) }, plain),
  )
  // A form of more beds is more, and what isn't of a bed is hardly anything.
  const one = unitsOfForm(manyBedsTyped(1), 'form', plain)
  expect(
    unitsOfForm({ language: 'es', bedside: '', beds: '', postcode: '' }, 'form', plain),
  ).toBeLessThanOrEqual(one)
  expect(unitsOfForm(manyBedsTyped(7), 'form', plain)).toBeGreaterThan(2 * one)
})

test('a range of finishes that are bought and fetched together is more work, by how many of them there may be', () => {
  const byCost = (together: 'each' | 'all' | 'apart', several: boolean) => {
    const table = costTable({ fetching: { together, mixed: true } })
    return several
      ? {
          ...table,
          finishes: table.finishes.map(one => ({ ...one, pricedBy: 'cost' as const, packs: [bulk()] })),
        }
      : table
  }
  const body = { beds: manyBeds(10), narrower: true }
  const units = [byCost('each', true), byCost('all', false), byCost('all', true), byCost('apart', true)].map(
    table => [unitsOfTold(body, table), unitsOfForm(manyBedsTyped(10), 'live', table)],
  )
  const [apart, one, all, loose] = units.map(([told]) => told!)
  expect(apart).toBe(unitsOfTold(body, plain))
  expect([apart, one, all, loose].toSorted((a, b) => a! - b!)).toEqual([apart, one, all, loose])
  expect(new Set(units.map(([, live]) => live)).size).toBe(4)
  // No more kinds than beds are bought.
  const single = { beds: manyBeds(1), narrower: true }
  expect(unitsOfTold(single, byCost('all', true))).toBe(unitsOfTold(single, byCost('all', false)))
})
