import { afterEach, beforeEach, expect, test } from 'vitest'
import { inventedPrices } from '../../src/estimate/starter/starter-prices.ts'
import { findRateTable } from '../../src/rates/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { ALICE, SET_UP_FIELDS, setUpPath } from '../helpers/people.ts'

let app: TestApp
beforeEach(async () => {
  app = await testApp()
})
afterEach(() => app.close())

type Fields = Record<string, string | string[]>

/** The set-up form with nothing in its prices. */
const NO_PRICES: Fields = Object.fromEntries(
  Object.entries(SET_UP_FIELDS).map(([name, value]) => [
    name,
    /^(rates|extras)\.|^minimum|^laborHoursPer/.test(name) ? '' : value,
  ]),
)

const send = async (fields: Fields) =>
  app
    .browser()
    .post(await setUpPath(app))
    .type('form')
    .send(fields)
const fill = (fields: Fields) => send({ ...fields, do: 'fill' })

/** What stands in the fields of a page, as a browser would send it. */
function fieldsIn(page: string): Fields {
  const fields: Fields = {}
  for (const [tag] of page.matchAll(/<input[^>]*>/g)) {
    const name = /\sname="([^"]*)"/.exec(tag)?.[1]
    const value = /\svalue="([^"]*)"/.exec(tag)?.[1] ?? ''
    if (!name || (/type="(radio|checkbox)"/.test(tag) && !/\schecked/.test(tag))) continue
    fields[name] = name.endsWith('[]') ? [...(fields[name] ?? []), value] : value
  }
  for (const [, name, options] of page.matchAll(/<select[^>]*\sname="([^"]*)"[^>]*>([\s\S]*?)<\/select>/g))
    fields[name!] = /value="([^"]*)" selected/.exec(options!)?.[1] ?? ''
  for (const [, name, value] of page.matchAll(/<textarea[^>]*\sname="([^"]*)"[^>]*>([\s\S]*?)<\/textarea>/g))
    fields[name!] = value!
  return fields
}

const marked = (page: string) => page.match(/, invented|<strong>invented/g)?.length ?? 0

test.each(['us', 'metric'] as const)(
  'fills every price that is empty, in %s, says what that means, and saves nothing',
  async units => {
    const answer = await fill({ ...NO_PRICES, units })
    expect(answer.status).toBe(200)
    const { rates, extras, minimumCharge, laborHoursPerVolume } = inventedPrices(units)
    const fields = fieldsIn(answer.text)
    expect(Object.keys(rates)).toHaveLength(6)
    for (const [slug, { lower, upper }] of Object.entries(rates))
      expect([fields[`rates.${slug}.0.lower`], fields[`rates.${slug}.0.upper`]]).toEqual([lower, upper])
    for (const [slug, { lower, upper }] of Object.entries(extras))
      expect([fields[`extras.${slug}.lower`], fields[`extras.${slug}.upper`]]).toEqual([lower, upper])
    expect(fields).toMatchObject({ minimumCharge, laborHoursPerVolume })
    // Six finishes, two extras, the minimum and the labor hours.
    expect(marked(answer.text)).toBe(10)
    expect(answer.text).toMatch(/id="filled" role="status"/)
    expect(answer.text).toContain('aren’t yours')
    expect(answer.text).toContain('Homeowners would get price ranges from them')
    expect(answer.text).toContain('listed under Rates until you check them')
    for (const table of ['account', 'business', 'rate_table'] as const)
      expect(await app.db.selectFrom(table).selectAll().execute()).toEqual([])
  },
)

test('keeps all that was typed but the password, and sets up at once with what is on the page', async () => {
  const typed: Fields = { ...NO_PRICES, 'rates.stone.0.lower': '$171', 'rates.stone.0.upper': '205,5' }
  const { text } = await fill({ ...typed, 'workingDays[]': ['2', '6'] })
  expect(text).not.toContain(ALICE.password)
  const fields = fieldsIn(text)
  expect(fields['owner.password']).toBe('')
  for (const [name, value] of Object.entries(typed))
    if (value !== '' && !/password|workingDays/.test(name))
      expect([name, fields[name]]).toEqual([name, value])
  expect(fields['workingDays[]']).toEqual(['2', '6'])
  expect(marked(text)).toBe(9)

  const answer = await send({ ...fields, 'owner.password': ALICE.password })
  expect([answer.status, answer.headers.location]).toEqual([303, '/welcome'])
  const welcome = await app.browser().get('/welcome').expect(303)
  expect(welcome.headers.location).toMatch(/^\/sign-in/)
  const { body } = (await findRateTable(app.db, app.deps.now()))!
  expect(body.finishes.map(({ slug, rates }) => [slug, Number(rates[0]!.lower)])).toEqual([
    ['shredded-wood', 85],
    ['dyed-wood', 95],
    ['bark-nuggets', 105],
    ['pine-straw', 12],
    ['compost', 80],
    ['stone', 171],
  ])
})

test('a pair that is half typed is left for its owner to finish', async () => {
  const { text } = await fill({ ...NO_PRICES, 'rates.stone.0.lower': '300' })
  expect(fieldsIn(text)).toMatchObject({ 'rates.stone.0.lower': '300', 'rates.stone.0.upper': '' })
  expect(marked(text)).toBe(9)
})

test('where nothing is empty nothing is filled, and it says so', async () => {
  const { status, text } = await fill({
    ...SET_UP_FIELDS,
    'extras.weeding.lower': '1',
    'extras.weeding.upper': '2',
  })
  expect(status).toBe(200)
  expect(text).toContain('No price was empty')
  expect(marked(text)).toBe(0)
})

test('without units there is nothing to fill them for', async () => {
  const { status, text } = await fill({ ...NO_PRICES, units: 'cubits' })
  expect(status).toBe(422)
  expect(text).toContain('id="units-error"')
  expect(fieldsIn(text)).toMatchObject({ minimumCharge: '', 'business.name': 'Fern Beds' })
  expect(text).not.toContain(ALICE.password)
})

test('invented prices of other units are refused as one’s own, and filling again puts the right ones in', async () => {
  const yards = fieldsIn((await fill(NO_PRICES)).text)
  const inMeters = { ...yards, units: 'metric', 'owner.password': ALICE.password, minimumCharge: '222' }
  const refused = await send(inMeters)
  expect(refused.status).toBe(422)
  expect(refused.text).toMatch(/id="units-error">The invented prices below are for cubic yards/)
  expect(await app.db.selectFrom('business').selectAll().execute()).toEqual([])

  const again = fieldsIn((await fill(inMeters)).text)
  expect(again).toMatchObject({
    'rates.compost.0.lower': '105',
    'extras.edging.upper': '8.50',
    laborHoursPerVolume: '1',
    minimumCharge: '222',
  })
  expect((await send({ ...again, 'owner.password': ALICE.password })).status).toBe(303)
})

test('the owner’s own prices go with other units than those that were filled before', async () => {
  const yards = fieldsIn((await fill(NO_PRICES)).text)
  const own = Object.fromEntries(Object.entries(SET_UP_FIELDS).filter(([name]) => /^rates\./.test(name)))
  const none = {
    'extras.edging.lower': '',
    'extras.edging.upper': '',
    'extras.weeding.lower': '',
    'extras.weeding.upper': '',
  }
  const answer = await send({
    ...yards,
    ...own,
    ...none,
    minimumCharge: '0',
    laborHoursPerVolume: '1.2',
    units: 'metric',
    'owner.password': ALICE.password,
  })
  expect(answer.status).toBe(303)
})

test('Enter in a field sets up: the form’s first button is not the one that fills', async () => {
  const { text } = await app.browser().get(await setUpPath(app))
  const [first, ...others] = text.slice(text.indexOf('<form')).match(/<button[^>]*>/g)!
  expect(first).toContain('type="submit"')
  expect(first).not.toContain('name=')
  expect(others.filter(button => button.includes('name="do" value="fill"'))).toHaveLength(1)
})
