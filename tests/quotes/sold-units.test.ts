import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

// 20 × 30 ft at 3 in are 30 bales at 20 ft² a bale (LSU AgCenter column, 2002-12-01): at 14 they are 420. 27 × 60 ft at
// 2 in are 10 yd³, 13 tons at 2,600 lb a yd³ (CalRecycle): at 140 they are 1,820.
const RATES = {
  'rates.pine-straw.0.lower': '12',
  'rates.pine-straw.0.upper': '16',
  'rates.stone.0.lower': '130',
  'rates.stone.0.upper': '150',
}
const beds = told(
  bedTold({ sizes: { length: '30 ft', width: '20 ft' }, finish: 'pine-straw' }),
  bedTold({ sizes: { length: '60 ft', width: '27 ft' }, finish: 'stone', depth: '2 in' }),
)

let app: TestApp
let owner: Browser
let number: string
let ownPath: string
let bookingPath: string

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app, RATES)).owner
  const sent = await sendRequest(app, { told: beds })
  number = sent.number
  ownPath = sent.ownPath
})
afterAll(() => app.close())

async function wordsOf(browser: Pick<Browser, 'get'>, path: string): Promise<string> {
  const page = await browser.get(path)
  expect(page.status).toBe(200)
  return page.text.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')
}

const NO_YARDS = /cubic yard|yarda|yd³ of/

test('a homeowner reads bales and tons in the range, in both languages', async () => {
  const english = await wordsOf(app.browser(), ownPath)
  expect(english).toContain('Pine straw: about 30 bales')
  expect(english).toContain('Decorative stone: about 13 tons')
  expect(english).toContain('on about 2,220 square feet of beds')
  expect(english).not.toMatch(NO_YARDS)
  const spanish = await wordsOf(app.browser(), `${ownPath}?language=es`)
  expect(spanish).toContain('Paja de pino: cerca de 30 pacas')
  expect(spanish).toContain('Piedra decorativa: cerca de 13 toneladas')
  expect(spanish).not.toMatch(NO_YARDS)
})

test('the staff price in them, and the worksheet says what each is', async () => {
  const page = await wordsOf(owner, `/queue/${number}/quote`)
  expect(page).toContain('30 bales at $14.00')
  expect(page).toContain('13 tons at $140.00')
  expect(page).toMatch(/Pine straw in place 30 \.00 bales Decorative stone in place 13 \.00 tons/)
  expect(page).not.toMatch(NO_YARDS)
  expect(page).toMatch(/Pine straw to order 31 \.50 bales/)
  expect(page).toMatch(/Decorative stone to order 13 \.65 tons/)
  const sheet = await wordsOf(owner, `/queue/${number}/worksheet`)
  expect(sheet).toContain(
    'Pine straw (20 ft² at 3 in a bale): 30 bales × $14.00, halfway between $12.00 and $16.00 = $420.00',
  )
  expect(sheet).toContain('Decorative stone (2,600 lb per yd³): 13 tons × $140.00')
})

test('a quote’s lines tell them to the homeowner and to the staff', async () => {
  bookingPath = (await quoteRequest(app, number)).bookingPath
  const english = await wordsOf(app.browser(), bookingPath)
  expect(english).toMatch(/30 bales \$420\.00/)
  expect(english).toMatch(/13 tons \$1,820\.00/)
  expect(english).not.toMatch(NO_YARDS)
  const spanish = await wordsOf(app.browser(), `${bookingPath}?language=es`)
  expect(spanish).toContain('30 pacas')
  expect(spanish).toContain('13 toneladas')
  expect(await wordsOf(owner, `/queue/${number}`)).toContain('30 bales at $14.00')
})

test('the rates say what they are for', async () => {
  const rates = await wordsOf(owner, '/rates')
  expect(rates).toContain('Pine straw per bale')
  expect(rates).toContain('Decorative stone per ton')
  expect(rates).toContain('Compost per cubic yard')
  const section = await wordsOf(owner, '/rates/draft/finish.pine-straw')
  expect(section).toContain('USD per bale')
})
