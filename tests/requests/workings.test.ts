import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Around } from '../../src/http/render.ts'
import { findRateTable } from '../../src/rates/queries.ts'
import { readBedsForm, toldOf } from '../../src/requests/form.ts'
import { openTable } from '../../src/requests/open-table.ts'
import { LONG, unitsOfForm, unitsOfTold } from '../../src/requests/units.ts'
import { type Workings, workings } from '../../src/requests/workings.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { manyBeds, manyBedsTyped } from '../helpers/many-beds.ts'
import { openBusiness } from '../helpers/people.ts'

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
  expect(unitsOfForm(TYPED, 'form')).toBeGreaterThan(LONG)
  const answer = await app.browser().get(`/?${query}`)
  const plain = { ...around, language: 'en', demo: false, flash: null }
  const [page] = await both('form', { form, showFaults: false, carried: [], around: plain })
  expect(answer.status).toBe(200)
  expect(answer.text).toBe(page)
})

test('ten beds that follow the typing are charged no more than the budget is reasoned with', () => {
  expect(unitsOfForm(manyBedsTyped(10), 'live')).toBeLessThan(8)
})

test('what is little is worked out here', () => {
  expect(unitsOfForm(manyBedsTyped(1), 'form')).toBeLessThan(LONG)
  expect(unitsOfForm(manyBedsTyped(3), 'live')).toBeLessThan(LONG)
  expect(unitsOfTold({ beds: manyBeds(3) })).toBeLessThan(LONG)
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
  ].map(unitsOfTold)
  expect(units).toEqual([...units].sort((a, b) => a - b))
  // More entries than are read aren't worked out, whatever they are.
  expect(unitsOfTold({ beds: Array(5000).fill(bed) })).toBe(unitsOfTold({ beds: Array(40).fill(bed) }))
  // A form of more beds is more, and what isn't of a bed is hardly anything.
  const one = unitsOfForm(manyBedsTyped(1), 'form')
  expect(unitsOfForm({ language: 'es', bedside: '', beds: '', postcode: '' }, 'form')).toBeLessThanOrEqual(
    one,
  )
  expect(unitsOfForm(manyBedsTyped(7), 'form')).toBeGreaterThan(2 * one)
})
