import { afterAll, beforeAll, expect, test } from 'vitest'
import { findNewestQuote } from '../../src/quotes/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { confirmQuote, postQuote } from '../helpers/quotes.ts'
import { changeRates, plain, sendThreeYards } from './quoting.ts'

let app: TestApp
let owner: Browser

// A yd³ takes 2 h and costs 30; a foreman at 28 and a helper at 20, both with a quarter on top; the truck 24 a day.
beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app, { 'rates.shredded-wood.0.upper': '120' })).owner
  await changeRates(app, body => ({
    ...body,
    allowance: '0',
    finishes: body.finishes.map(finish => ({ ...finish, materialCost: '30' })),
    people: [
      { name: 'Foreman', come: '1', wage: '28', burden: null },
      { name: 'Helper', come: '1', wage: '20', burden: null },
    ],
    labor: { ...body.labor, spread: { lower: '2', upper: '2' } },
    costs: { ...body.costs, burden: '0.25', truckEach: '24' },
  }))
})
afterAll(() => app.close())

const crewOf = (...counts: string[]) =>
  Object.fromEntries(
    counts.flatMap((count, index) => [
      [`crew.${index}.name`, ['Foreman', 'Helper'][index]!],
      [`crew.${index}.was`, '1'],
      [`crew.${index}.count`, count],
    ]),
  )

const wordsOf = (page: string) => page.replace(/<[^>]*>/g, '').replace(/\s+/g, ' ')

test('what a job costs is told man by man, with what is left as the margin', async () => {
  const { number } = await sendThreeYards(app)
  const words = wordsOf((await owner.get(`/queue/${number}/quote`)).text)
  // 6 h are 3 h each: 84 and 21, 60 and 15. 90 of material, 180 of labor and the truck are 294 of the 300.
  expect(words).toMatch(/Foreman, 3\.00 h at \$28\.00 ?\$84\.00/)
  expect(words).toMatch(/Foreman, payroll taxes and insurance ?\$21\.00/)
  expect(words).toMatch(/Helper, 3\.00 h at \$20\.00 ?\$60\.00/)
  expect(words).toMatch(/Helper, payroll taxes and insurance ?\$15\.00/)
  expect(words).toMatch(/Truck ?\$24\.00/)
  expect(words).toMatch(/Margin price before tax, less cost ?\$6\.00/)
})

test('another crew is kept with the quote, begins the next one, and is what the worksheet tells', async () => {
  const { id, number } = await sendThreeYards(app)
  const sent = { ...plain, laborHours: '6', ...crewOf('0', '2') }
  expect((await confirmQuote(owner, number, sent)).status).toBe(303)
  const { terms } = (await findNewestQuote(app.db, id))!
  expect(terms.crew).toEqual([
    { name: 'Foreman', count: '0' },
    { name: 'Helper', count: '2' },
  ])
  const page = (await owner.get(`/queue/${number}/quote`)).text
  expect(page).toMatch(/<details class="quote-line" open><summary>Who comes/)
  expect(page).toMatch(/name="crew\.1\.count"[^>]*value="2"/)
  expect(wordsOf(page)).toMatch(/2 × Helper, 6\.00 h at \$20\.00 ?\$120\.00/)
  const worksheet = wordsOf((await owner.get(`/queue/${number}/worksheet`)).text)
  expect(worksheet).toContain('2 × Helper: 6 h × $20.00 = $120.00')
  expect(worksheet).not.toContain('Foreman:')
  // Sent once more it is the same quote; with the usual crew it is another.
  const again = { revision: '1', basis: '', ...sent }
  expect((await postQuote(owner, number, again)).status).toBe(303)
  expect((await postQuote(owner, number, { ...again, ...crewOf('1', '1') })).status).toBe(409)
})

test('the usual crew leaves nothing in the quote', async () => {
  const { id, number } = await sendThreeYards(app)
  await confirmQuote(owner, number, { ...plain, ...crewOf('1', '1.0') })
  expect((await findNewestQuote(app.db, id))!.terms).not.toHaveProperty('crew')
})

test.each([
  [['0', '0'], 'At least one person has to come.'],
  [['51', '1'], 'Give a number up to 50.'],
  [['two', '1'], 'can’t be read'],
])('a crew of %j is refused beside it, with what was typed', async (counts, said) => {
  const { id, number } = await sendThreeYards(app)
  const answer = await confirmQuote(owner, number, { ...plain, ...crewOf(...counts) })
  expect(answer.status).toBe(422)
  expect(answer.text).toContain(said)
  expect(answer.text).toContain(`value="${counts[0]}"`)
  expect(await findNewestQuote(app.db, id)).toBeUndefined()
})
