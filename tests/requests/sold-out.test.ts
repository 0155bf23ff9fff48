import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Finish } from '../../src/estimate/table/rate-table.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { putInForce } from '../helpers/rate-tables.ts'
import { BEDS, CAROL, sendForm } from '../helpers/request-form.ts'
import { bedTold, told } from '../helpers/requests.ts'

let app: TestApp
let before: unknown

const settings: Record<string, Partial<Finish>> = {
  'bark-nuggets': {
    soldOut: true,
    substitutes: ['dyed-wood', 'pine-straw', 'compost', 'stone', 'shredded-wood'],
  },
  'pine-straw': { soldOut: true },
  'dyed-wood': { offered: false },
}
// 4 yd³ by eye may be priced as 6 yd³, what is missing at pine straw's rate: the cheapest of all.
const job = told(bedTold({ sizes: { length: '36 ft', width: '12 ft' }, measuredBy: 'eye' }))

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  await putInForce(app, table => ({
    ...table,
    tiers: ['6'],
    finishes: table.finishes.map(one => ({ ...one, rates: [one.rates[0]!, { lower: '40', upper: '50' }] })),
  }))
  before = (await app.browser().post('/ballpark').send(job)).body
  await putInForce(app, table => ({
    ...table,
    finishes: table.finishes.map(one => ({ ...one, ...settings[one.slug] })),
  }))
})
afterAll(() => app.close())

const ask = (finish: string, language = 'en') =>
  app
    .browser()
    .post('/ballpark')
    .set('accept-language', language)
    .send(told(bedTold({ finish })))
const wordsOf = (page: string) => page.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')
const faultAt = (page: string, bed = 0) =>
  new RegExp(`id="beds-${bed}-finish-error">([^<]*)<`).exec(page)?.[1] ?? null
const link = '/?beds.0.shape=rectangle&beds.0.sizes.length=20&beds.0.sizes.width=5&beds.0.finish='

test('other programs are told what is sold out and what comes close, and never of what is hidden', async () => {
  const en = await ask('bark-nuggets')
  expect([en.status, en.body.errors]).toEqual([
    422,
    [
      {
        field: 'beds.0.finish',
        // Dyed wood is hidden and pine straw sold out; two are enough.
        message: 'Sold out right now: Pine bark nuggets. Closest: Compost, Decorative stone.',
      },
    ],
  ])
  const es = await ask('bark-nuggets', 'es')
  expect(es.body.errors[0].message).toBe(
    'Agotado por ahora: Corteza de pino en trozos. Lo más parecido: Composta, Piedra decorativa.',
  )
  const alone = await ask('pine-straw')
  expect(alone.body.errors[0].message).toBe('Sold out right now: Pine straw. Please pick another material.')
  const hidden = await ask('dyed-wood')
  expect([hidden.status, hidden.body.errors[0].message]).toEqual([
    422,
    'Please choose a material: shredded-wood, compost, stone.',
  ])
  const list = (await app.browser().get('/finishes')).body
  expect(list.map(({ slug }: { slug: string }) => slug)).toEqual(['shredded-wood', 'compost', 'stone'])
})

test('what else can be picked changes no price', async () => {
  expect((await app.browser().post('/ballpark').send(job)).body).toEqual(before)
})

test('the form says what is sold out and what comes close, and doesn’t offer it', async () => {
  const page = (await app.browser().get('/')).text
  expect(wordsOf(page)).toContain(
    'Sold out right now: Pine bark nuggets. Closest: Compost, Decorative stone. Sold out right now: Pine straw.',
  )
  expect(page).not.toContain('value="bark-nuggets"')
  expect(page).not.toContain('Dyed mulch')
  expect(faultAt(page)).toBeNull()
})

test('a link with a finish that is sold out or hidden shows the fault, and no other finish is picked', async () => {
  for (const [finish, says] of [
    ['bark-nuggets', 'Sold out right now: Pine bark nuggets. Closest: Compost, Decorative stone.'],
    ['dyed-wood', 'Please choose a material: shredded-wood, compost, stone.'],
  ] as const) {
    const page = (await app.browser().get(link + finish)).text
    expect(faultAt(page)).toBe(says)
    expect(page).not.toMatch(/name="beds\.0\.finish"[^>]* checked/)
    expect(page).toMatch(/id="beds-0-sizes-length"[^>]* value="20"/)
  }
  const onwards = await app.browser().get(`${link.replace('/?', '/request?')}bark-nuggets`)
  expect(onwards.headers.location).toContain('beds.0.finish=bark-nuggets')
})

test('the live part tells it too, in a place that follows the typing', async () => {
  const live = (finish: string) =>
    app
      .browser()
      .post('/ballpark')
      .set('x-part', 'live')
      .type('form')
      .send({ ...BEDS, 'beds.1.finish': finish })
  const gone = await live('bark-nuggets')
  expect(gone.status).toBe(200)
  expect(gone.text).toMatch(
    /<div id="beds-1-finish-fault" data-live>\s*<p class="error" id="beds-1-finish-error">Sold out right now: Pine bark nuggets/,
  )
  expect(gone.text).toContain('This is for 1 of your 2 beds.')
  expect((await live('stone')).text).toMatch(/<div id="beds-1-finish-fault" data-live>\s*<\/div>/)
})

test('a new bed doesn’t begin with a finish that is sold out', async () => {
  const added = await app
    .browser()
    .post('/ballpark')
    .type('form')
    .send({ ...BEDS, 'beds.1.finish': 'bark-nuggets', do: 'add' })
  const page = (await app.browser().get(added.headers.location!)).text
  expect([faultAt(page, 1), faultAt(page, 2)]).toEqual([expect.stringContaining('Sold out'), null])
  expect(page).toMatch(/name="beds\.2\.finish" value="shredded-wood"[^>]* checked/)
})

test('who sends a finish that was sold out meanwhile goes back to the beds and loses nothing', async () => {
  const submissionKey = '11111111-2222-4333-8444-555555555555'
  const refused = await sendForm(app, { 'beds.1.finish': 'bark-nuggets', submissionKey })
  expect(refused.status).toBe(422)
  expect(faultAt(refused.text, 1)).toContain('Closest: Compost, Decorative stone.')
  expect(await app.db.selectFrom('quote_request').select('id').execute()).toEqual([])
  const hidden = Object.fromEntries(
    [...refused.text.matchAll(/<input type="hidden" name="([^"]+)" value="([^"]*)"/g)].map(
      ([, name, value]) => [name!, value!],
    ),
  )
  const { postcode, ...carried } = CAROL
  expect(hidden).toMatchObject({ ...carried, note: expect.stringContaining('by the porch'), submissionKey })
  const beds = { ...BEDS, postcode, ...hidden }
  const post = (fields: object) => app.browser().post('/ballpark').type('form').send(fields)
  // Adding a bed first keeps them as well, and never in an address.
  const added = await post({ ...beds, do: 'add' })
  expect([added.status, added.headers.location]).toEqual([200, undefined])
  expect(added.text).toContain(`name="email" value="${CAROL.email}"`)
  const contact = await post({ ...beds, 'beds.1.finish': 'compost', do: 'go-on' })
  expect(contact.status).toBe(200)
  expect(contact.text).toMatch(/id="email"[^>]* value="carol@example.com"/)
  expect(contact.text).toMatch(/id="postcode"[^>]* value="78702-1234"/)
  expect(contact.text).toContain('by the porch')
  expect(contact.text).toContain(`name="submissionKey" value="${submissionKey}"`)
})
