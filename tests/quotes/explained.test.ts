import { afterAll, beforeAll, expect, test } from 'vitest'
import { changeBesidePrice } from '../../src/business/answers.ts'
import { findNewestQuote } from '../../src/quotes/queries.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import { keepMeasurements, setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { confirmQuote, hiddenFields, postQuote, quoteRequest } from '../helpers/quotes.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'
import { bookingWords, plain } from './quoting.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

const rectangle = (length: string, width: string, more = {}) => bedTold({ sizes: { length, width }, ...more })

/** Sent with one bed of 12 by 10 feet, measured as something else. */
async function measuredOtherwise(beds: Parameters<typeof told>, instead = {}) {
  const sent = await sendRequest(app, { told: told(rectangle('12 ft', '10 ft')), ...instead })
  await setVisit(app.deps, 1, sent.id, app.deps.now())
  await keepMeasurements(app.deps, 1, sent.id, told(...beds))
  return sent
}

const why = async (id: number) => (await findNewestQuote(app.db, id))!.why

test('a bed that measured otherwise is told with both sizes, after the range that was seen', async () => {
  const { id, number } = await measuredOtherwise([{ ...rectangle('29 ft', '12 ft'), toldBed: 0 }])
  await quoteRequest(app, number)
  const said = (await why(id))!
  expect(said.en).toMatch(
    /^You saw \$[\d,]+( to \$[\d,]+)?\. Bed 1 measured 348 square feet instead of 120\.$/,
  )
  expect(said.es).toContain('La jardinera 1 midió 348 pies cuadrados en vez de 120.')
  expect(await bookingWords(app, owner, number)).toContain(said.en)
})

test('what was dropped and what was found on site is told', async () => {
  const { id, number } = await measuredOtherwise(
    [rectangle('10 ft', '10 ft'), rectangle('20 ft', '10 ft')].map(bed => ({ ...bed, toldBed: null })),
  )
  await quoteRequest(app, number)
  expect((await why(id))!.en).toContain(
    'Bed 1 isn’t part of this price. We found 2 more beds: 300 square feet together.',
  )
})

test('inside the range, with the beds as told, there is nothing to explain', async () => {
  const { id, number } = await sendRequest(app, { told: told(rectangle('27 ft', '12 ft')) })
  await quoteRequest(app, number)
  expect(await why(id)).toEqual({ en: '', es: '' })
})

test('the owner sees the sentence before sending, in the homeowner’s language, and can change it', async () => {
  const { id, number } = await measuredOtherwise([{ ...rectangle('29 ft', '12 ft'), toldBed: 0 }], {
    language: 'es',
  })
  const form = await owner.get(`/queue/${number}/quote`).expect(200)
  expect(form.text).toMatch(/<textarea[^>]*name="why"[^>]*lang="es"[^>]*>Usted vio/)
  expect(form.text).toContain('above the range they saw')
  const own = 'Medimos el jardín: es más grande.'
  await confirmQuote(owner, number, { ...plain, why: own }).then(({ status }) => expect(status).toBe(303))
  expect(await why(id)).toEqual({ en: own, es: own })
  const again = await owner.get(`/queue/${number}/quote`).expect(200)
  expect(again.text).toContain(`>${own}</textarea>`)
})

test('rates show only where the owner says so, and never beside an amount that was changed', async () => {
  const { number } = await sendRequest(app, { told: told(rectangle('27 ft', '12 ft')) })
  await confirmQuote(owner, number, plain)
  expect(await bookingWords(app, owner, number)).not.toMatch(/ at \$/)
  const settings = { answers: {}, showRates: 'yes', 'answers.rain.en': 'We come the next dry day.' }
  await owner.post('/settings/prices').type('form').send(settings).expect(303)
  try {
    const shown = await bookingWords(app, owner, number)
    expect(shown).toMatch(/3 cubic yards at \$/)
    expect(shown).toMatch(/What if it rains\? ?We come the next dry day\./)
    expect(shown).toContain('The price never rises without your OK.')
    await confirmQuote(owner, number, {
      ...plain,
      'lines.0.was': '300.00',
      'lines.0.amount': '280',
      'lines.0.reason': 'Slow week',
    })
    expect(await bookingWords(app, owner, number)).not.toMatch(/ at \$/)
    expect((await owner.get(`/queue/${number}`)).text).not.toMatch(/cubic yards at \$/)
  } finally {
    await changeBesidePrice(app.deps, { answers: {} as never, showRates: false })
  }
})

test('an answer in Spanish alone is asked for in English too, and kept', async () => {
  const answer = await owner
    .post('/settings/prices')
    .type('form')
    .send({ 'answers.home.es': 'No hace falta.' })
    .expect(422)
  expect(answer.text).toContain('href="#answers-home-en"')
  expect(answer.text).toContain('No hace falta.')
})

test('a round total becomes one line, and a later one takes its place', async () => {
  const { id, number } = await sendRequest(app, { told: told(rectangle('27 ft', '12 ft')) })
  const hidden = await hiddenFields(owner, number)
  const looked = await postQuote(owner, number, { ...hidden, ...plain, do: 'again', roundTotal: '450' })
  expect(looked.text).toContain('value="Rounded to an even price"')
  expect(looked.text).toMatch(/Rounded to an even price: \+\$/)
  await postQuote(owner, number, { ...hidden, ...plain, roundTotal: '450' }).then(({ status }) =>
    expect(status).toBe(303),
  )
  const total = async () => (await findNewestQuote(app.db, id))!.total
  expect(await total()).toBe('450.00')
  const first = (await findNewestQuote(app.db, id))!.lines.at(-1)!
  const path = (await findLinkPath(app.db, app.deps.secretKey, 'booking', id))!
  const spanish = await app.browser().get(path).set('accept-language', 'es')
  expect(spanish.text).toContain('Precio redondeado')
  const before = {
    'added.0.description': first.description!,
    'added.0.amount': first.amount,
    'added.0.reason': first.reason!,
  }
  await confirmQuote(owner, number, { ...plain, ...before, roundTotal: '440' })
  const { lines } = (await findNewestQuote(app.db, id))!
  expect(await total()).toBe('440.00')
  expect(lines.filter(({ kind }) => kind === 'other')).toHaveLength(1)
  await confirmQuote(owner, number, { ...plain, roundTotal: 'much' }).then(({ status }) =>
    expect(status).toBe(422),
  )
})
