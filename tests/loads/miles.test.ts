import { randomUUID } from 'node:crypto'
import { strFromU8, unzipSync } from 'fflate'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { bookedToday } from '../helpers/bookings.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'

let app: TestApp
let owner: Browser
let helper: Browser

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
  helper = await helperBrowser(app)
})
afterAll(() => app.close())

const TODAY = '2026-03-02'
const form = (fields: Record<string, string>) => ({
  ...{ milesKey: randomUUID(), vehicle: 'The truck', odometerOut: '', odometerBack: '', distance: '' },
  ...{ milesWords: '', ...fields },
})
const send = (browser: Browser, day: string, fields: Record<string, string>) =>
  browser.post(`/loads/${day}/miles`).type('form').send(fields)
const page = async (browser: Browser, day: string) => (await browser.get(`/loads/${day}`)).text
const rowsOf = (day: string) =>
  app.db.selectFrom('miles_driven').selectAll().where('day', '=', day).orderBy('id').execute()

test('by odometer or by distance: noted once, and in the accountant’s zip with the jobs of the day', async () => {
  const { number } = await bookedToday(app)
  const byOdometer = form({ odometerOut: '48,210.5', odometerBack: '48245', milesWords: '=To the dump too' })
  for (const _ of [1, 2]) expect((await send(helper, TODAY, byOdometer)).status).toBe(303)
  expect((await send(owner, TODAY, form({ vehicle: 'The van', distance: '12' }))).status).toBe(303)
  // 48,245.0 less 48,210.5 are 34.5.
  expect((await rowsOf(TODAY)).map(({ distance, unit }) => [distance, unit])).toEqual([
    ['34.5', 'mi'],
    ['12.0', 'mi'],
  ])
  const shown = await page(helper, TODAY)
  for (const words of ['The truck: 34.5 mi', 'odometer 48,210.5 to 48,245', 'In all: 46.5 mi'])
    expect(shown).toContain(words)
  const query = `?from=${TODAY}&to=${TODAY}`
  expect((await owner.get(`/accountant${query}`)).text).toContain('46.5 mi')
  const zip = await owner
    .post('/accountant/books.zip')
    .type('form')
    .send({ from: TODAY, to: TODAY })
    .responseType('blob')
    .expect(200)
  const csv = strFromU8(unzipSync(new Uint8Array(zip.body))['miles.csv']!).split('\r\n')
  expect(csv[1]).toBe(`${TODAY},The truck,48210.5,48245.0,34.5,mi,${number},'=To the dump too,Hugo Moss`)
  expect(csv[2]).toBe(`${TODAY},The van,,,12.0,mi,${number},,Alice Fern`)
})

test.each([
  [{ vehicle: '', distance: '5' }, 'Say which vehicle.'],
  [{}, 'Type how far, or what the odometer said'],
  [{ odometerOut: '100' }, 'Type what the odometer said before and after.'],
  [{ odometerOut: '100', odometerBack: '99' }, 'It has to be more than before.'],
  [{ odometerOut: '100', odometerBack: '9900' }, 'That’s too far for a day.'],
  [{ odometerOut: '100', odometerBack: '130', distance: '31' }, 'The odometer says something else.'],
  [{ distance: 'far' }, 'Type how far, such as 34.5.'],
])('%o is refused beside its field, with what was typed', async (fields, sentence) => {
  const day = '2026-02-27'
  const refused = await send(helper, day, form({ milesWords: 'For a visit', ...fields }))
  expect(refused.status).toBe(422)
  expect(refused.text).toContain(sentence)
  expect(refused.text).toContain('value="For a visit"')
  expect(await rowsOf(day)).toEqual([])
})

test('a day to come has no miles yet', async () => {
  const day = '2026-03-03'
  expect(await page(owner, day)).not.toContain('Note how far you drove')
  expect((await send(owner, day, form({ distance: '5' }))).status).toBe(422)
  expect(await rowsOf(day)).toEqual([])
})

test('undone by whoever noted it or the owner, once; the database keeps what was noted', async () => {
  const day = '2026-02-26'
  await send(owner, day, form({ distance: '7' }))
  const [row] = await rowsOf(day)
  const undo = (browser: Browser, of = day) => browser.post(`/loads/${of}/miles/${row!.id}/undo`)
  expect((await undo(helper)).status).toBe(404)
  expect((await undo(owner, '2026-02-25')).status).toBe(404)
  for (const _ of [1, 2]) expect((await undo(owner)).status).toBe(303)
  expect(await page(owner, day)).not.toContain('The truck: 7 mi')
  const kept = app.db.updateTable('miles_driven').set({ distance: '9' }).where('id', '=', row!.id)
  await expect(kept.execute()).rejects.toThrow()
  await expect(app.db.deleteFrom('miles_driven').execute()).rejects.toThrow()
  expect((await app.browser().post(`/loads/${day}/miles`)).status).toBe(303)
})

test('in Spanish, too', async () => {
  const spanish = (await helper.get(`/loads/2026-02-24?language=es`).redirects(1)).text
  expect(spanish).toContain('Anotar cuánto manejó')
  await helper.get('/days?language=en').redirects(1)
})
