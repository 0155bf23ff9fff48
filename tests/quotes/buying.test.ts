import { afterAll, beforeAll, expect, it } from 'vitest'
import { bag, bulk } from '../estimate/packs/made.ts'
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

it('the price shows the cheapest way to buy, the next against it, and what is too heavy', async () => {
  const { number } = await sendThreeYards(app)
  const page = await owner.get(`/queue/${number}/quote`)
  const words = page.text.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')
  // 3 yd³ loose at an invented 32; 81 ft³ are 41 bags of 2 ft³ at an invented 4. At 1,000 lb a yd³ wet, 1,500 lb are 1.5 yd³
  // a trip.
  expect(words).toContain(
    'Shredded hardwood mulch: bulk, picked up $96.00 with 2 trips. Next best: bag, picked up, $164.00 3',
  )
  expect(words).toContain('on the truck weighs about 2,500 lb wet. The limit is 1,500 lb.')
})
