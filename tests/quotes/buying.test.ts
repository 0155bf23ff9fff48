import { afterAll, beforeAll, expect, it } from 'vitest'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import { buyingFigures } from '../../src/quotes/buying-figures.ts'
import type { Priced } from '../../src/quotes/pricing.ts'
import { jobOf, testTable } from '../estimate/jobs.ts'
import { bag, bulk, extraOf, flat, roll } from '../estimate/packs/made.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { changeRates, sendThreeYards } from './quoting.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app, { 'rates.shredded-wood.0.upper': '120' })).owner
  await changeRates(app, body => ({
    ...body,
    allowance: '0',
    finishes: body.finishes.map(finish => ({ ...finish, packs: [bag(), bulk()] })),
    carriers: [{ name: { en: 'the truck', es: 'la camioneta' }, volume: '2.5', payload: '1500' }],
  }))
})
afterAll(() => app.close())

async function wordsOf(path: string): Promise<string> {
  const page = await owner.get(path)
  return page.text.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')
}

it('the price shows the cheapest way to buy, the next against it, all trips, and what is too heavy', async () => {
  const { number } = await sendThreeYards(app)
  const words = await wordsOf(`/queue/${number}/quote`)
  // 3 yd³ loose at an invented 32; 81 ft³ are 41 bags of 2 ft³ at an invented 4. At 1,000 lb a yd³ wet, 1,500 lb are 1.5 yd³
  // a trip.
  expect(words).toContain(
    'Shredded hardwood mulch: bulk, picked up $96.00. Next best: bag, picked up, $68.00 more 3',
  )
  expect(words).toContain('Picking up all of it $0.00 2 trips')
  expect(words).toContain('on the truck weighs about 2,500 lb wet. The limit is 1,500 lb.')
})

it('the worksheet tells how all of it rides', async () => {
  const { number } = await sendThreeYards(app)
  const words = await wordsOf(`/queue/${number}/worksheet`)
  expect(words).toContain('Shredded hardwood mulch: 3 yd³ × 1,000 lb when wet = 3,000 lb')
  expect(words).toContain('A load holds 2.5 yd³ and 1,500 lb on the truck')
  expect(words).toContain('2 trips × $0.00 = $0.00')
})

it('where each material is fetched by itself, its trips stand with it', async () => {
  const { number } = await sendThreeYards(app)
  await changeRates(app, body => ({ ...body, fetching: { together: 'each', mixed: false } }))
  const words = await wordsOf(`/queue/${number}/quote`)
  await changeRates(app, body => ({ ...body, fetching: { together: 'all', mixed: true } }))
  expect(words).toContain(
    'Shredded hardwood mulch: bulk, picked up $96.00 with 2 trips. Next best: bag, picked up, $164.00 3',
  )
})

it('what is bought in strips is told by the length of roll that it takes', () => {
  const table = testTable()
  const sizes = { width: '4', length: '100', overlap: '0.5', strips: true }
  const packs = [roll({ ...sizes, prices: flat('52') })]
  const fabric = extraOf({ slug: 'fabric', name: { en: 'Fabric', es: 'Malla' }, packs })
  const rates = { ...table, extras: [fabric] }
  const job = jobOf([{ sizes: { length: '20', width: '10' }, count: 2 }], rates, ['fabric'])
  const priced = { price: workOutPrice(job, rates), rates: { body: rates } } as Priced
  // Three strips of 20 ft for each of two beds.
  expect(buyingFigures(priced, true)).toContainEqual({
    label: 'Fabric: roll, picked up',
    value: '2',
    unit: '×',
    note: '$104.00 for 120 ft in strips',
  })
})
