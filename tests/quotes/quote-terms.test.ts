import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { findNewestQuote } from '../../src/quotes/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { confirmQuote, hiddenFields, postQuote } from '../helpers/quotes.ts'
import { bookingWords, changeRates, chargeTax, linesOf, plain, sendThreeYards } from './quoting.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  // Shredded wood at 80 to 120: 100 in the middle.
  owner = (await openBusiness(app, { 'rates.shredded-wood.0.upper': '120' })).owner
})
afterAll(() => app.close())

describe('a discount', () => {
  it('is kept with its reason, shown to the homeowner, and taken off before the tax', async () => {
    await chargeTax(app)
    const { id, number } = await sendThreeYards(app)
    const answer = await confirmQuote(owner, number, {
      ...plain,
      adjustment: '-10%',
      adjustmentReason: 'a neighbour of last year',
    })
    expect(answer.status).toBe(303)
    // 300 less 30 is 270; 8.25% of it 22.275.
    expect(await linesOf(app, id)).toEqual(['finish 300.00', 'adjustment -30.00', 'tax 22.28', '292.28'])
    const quote = (await findNewestQuote(app.db, id))!
    expect(quote.terms).toEqual({
      work: 'upkeep',
      exempt: '',
      adjustment: { by: 'share', value: '-0.1', reason: 'a neighbour of last year' },
    })
    expect(quote.tax).toEqual({
      rate: '0.0825',
      included: false,
      taxed: '270.00',
      untaxed: '0.00',
      amount: '22.28',
      off: '0.00',
    })
    const words = await bookingWords(app, owner, number)
    expect(words).toContain('Discount: a neighbour of last year')
    expect(words).toContain('Sales tax, 8.25%')
    expect(words).toContain('$22.28')
    expect(words).toContain('$292.28')
  })

  it('is refused without a reason, or when it is no figure, with what was typed', async () => {
    const { id, number } = await sendThreeYards(app)
    for (const [typed, said] of [
      [{ adjustment: '-10%' }, 'Say why. The homeowner reads this.'],
      [{ adjustment: 'a tenth', adjustmentReason: 'x' }, 'Give a percentage, such as -10%'],
      [{ adjustment: '-101%', adjustmentReason: 'x' }, 'Give a percentage, such as -10%'],
    ] as const) {
      const answer = await confirmQuote(owner, number, { ...plain, ...typed })
      expect(answer.status).toBe(422)
      expect(answer.text).toContain(said)
      expect(answer.text).toContain(`value="${typed.adjustment}"`)
    }
    expect(await findNewestQuote(app.db, id)).toBeUndefined()
  })

  it('in money, and a surcharge, work alike; another revision begins with it', async () => {
    await chargeTax(app, { rate: '0' })
    const { id, number } = await sendThreeYards(app)
    await confirmQuote(owner, number, { ...plain, adjustment: '-12.50', adjustmentReason: 'late' })
    expect(await linesOf(app, id)).toEqual(['finish 300.00', 'adjustment -12.50', '287.50'])
    const page = await owner.get(`/queue/${number}/quote`)
    expect(page.text).toContain('value="-12.50"')
    await confirmQuote(owner, number, { ...plain, adjustment: '25%', adjustmentReason: 'steep' })
    expect(await linesOf(app, id)).toEqual(['finish 300.00', 'adjustment 75.00', '375.00'])
    expect(await bookingWords(app, owner, number)).toContain('Surcharge: steep')
  })
})

describe('a discount as a share', () => {
  const changed = {
    'lines.0.amount': '400',
    'lines.0.reason': 'steep',
    adjustment: '-10%',
    adjustmentReason: 'a neighbour',
  }

  it('is of the contractor’s own amounts', async () => {
    await chargeTax(app, { rate: '0' })
    const { id, number } = await sendThreeYards(app)
    await confirmQuote(owner, number, { ...plain, ...changed })
    expect(await linesOf(app, id)).toEqual(['finish 400.00', 'adjustment -40.00', '360.00'])
  })

  it('and a line of his own that takes off more than is left are refused together', async () => {
    const { id, number } = await sendThreeYards(app)
    const form = {
      ...plain,
      ...changed,
      adjustment: '-50%',
      'added.0.description': 'Paid before',
      'added.0.amount': '-220',
      'added.0.reason': 'paid',
    }
    const answer = await confirmQuote(owner, number, form)
    expect(answer.status).toBe(422)
    expect(answer.text).toContain('The total is less than zero.')
    expect(await findNewestQuote(app.db, id)).toBeUndefined()
  })
})

it('the same form five times at once makes one quote, with one line of tax', async () => {
  await chargeTax(app)
  const { id, number } = await sendThreeYards(app)
  const form = {
    ...(await hiddenFields(owner, number)),
    ...plain,
    adjustment: '-10%',
    adjustmentReason: 'a neighbour',
  }
  const answers = await Promise.all(Array.from({ length: 5 }, () => postQuote(owner, number, form)))
  expect(answers.map(answer => answer.status)).toEqual([303, 303, 303, 303, 303])
  const quotes = await app.db.selectFrom('quote').select('id').where('quote_request_id', '=', id).execute()
  expect(quotes).toHaveLength(1)
  expect(await linesOf(app, id)).toEqual(['finish 300.00', 'adjustment -30.00', 'tax 22.28', '292.28'])
  // Other terms are another quote, so the same revision again is refused.
  const other = await postQuote(owner, number, { ...form, exempt: 'OH-1' })
  expect(other.status).toBe(409)
})

it('setting up for a finish priced by its cost is a line with its name, also for the homeowner', async () => {
  await changeRates(app, body => ({
    ...body,
    tax: null,
    finishes: body.finishes.map(finish =>
      finish.slug === 'compost' ? { ...finish, pricedBy: 'cost', materialCost: '30' } : finish,
    ),
    allowance: '0',
    costPlus: { by: 'markup', share: '0.5' },
    costs: { ...body.costs, wage: '20', truckPerJob: '16' },
  }))
  const { id, number } = await sendThreeYards(app, 'compost')
  const page = await owner.get(`/queue/${number}/quote`)
  expect(page.text).toContain('Setup')
  await confirmQuote(owner, number, plain)
  // 3 yd³ at 30 and 3 h at 20 and half on it; 16 and half on it.
  expect(await linesOf(app, id)).toEqual(['finish 225.00', 'set-up 24.00', '249.00'])
  expect(await bookingWords(app, owner, number)).toMatch(/Setup ?\$24\.00/)
})
