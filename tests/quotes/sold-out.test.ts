import { afterEach, beforeEach, expect, test } from 'vitest'
import { leaveVisitOut } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { putInForce } from '../helpers/rate-tables.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
let number: string

beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  const beds = told(bedTold({ finish: 'bark-nuggets' }), bedTold({ finish: 'stone' }), bedTold())
  const sent = await sendRequest(app, { told: beds })
  number = sent.number
  await leaveVisitOut(app.deps, 1, sent.id)
})
afterEach(() => app.close())

const WARNINGS = [
  'Sold out right now: Pine bark nuggets. Substitutes, closest first: Dyed mulch, Pine straw (sold out too).',
  'Sold out right now: Decorative stone. It has no substitute.',
]

test('while nothing is sold out nothing is said', async () => {
  for (const path of ['', '/quote'])
    expect((await owner.get(`/queue/${number}${path}`)).text).not.toMatch(/sold out/i)
})

const sellOut = () =>
  putInForce(app, table => ({
    ...table,
    finishes: table.finishes.map(one => ({
      ...one,
      // Homeowners aren't shown dyed wood; the staff may lay it.
      offered: one.slug !== 'dyed-wood',
      soldOut: ['bark-nuggets', 'stone', 'pine-straw'].includes(one.slug),
      substitutes: one.slug === 'bark-nuggets' ? ['dyed-wood', 'pine-straw'] : [],
    })),
  }))

test('the request and its price say which finish of it is sold out and what can be laid instead, in order', async () => {
  await sellOut()
  for (const path of ['', '/quote']) {
    const { text, status } = await owner.get(`/queue/${number}${path}`)
    expect(status).toBe(200)
    const said = [...text.matchAll(/<p class="warning">([^<]*[Ss]old out[^<]*)<\/p>/g)].map(
      ([, words]) => words,
    )
    expect({ path, said }).toEqual({ path, said: WARNINGS })
  }
})

test('it is priced all the same', async () => {
  await sellOut()
  const page = await owner.get(`/queue/${number}/quote`)
  // 20 × 5 ft 3 in deep are 25 ft³: 25/27 yd³ at 115, the middle of 100 and 130, is 106.48.
  expect(page.text).toContain('$106.48')
})
