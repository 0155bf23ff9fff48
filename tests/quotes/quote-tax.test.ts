import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { taxedOnly } from '../estimate/taxes.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { confirmQuote } from '../helpers/quotes.ts'
import { bookingWords, chargeTax, linesOf, plain, sendThreeYards } from './quoting.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  // Shredded wood at 80 to 120: 100 in the middle.
  owner = (await openBusiness(app, { 'rates.shredded-wood.0.upper': '120' })).owner
})
afterAll(() => app.close())

describe('tax', () => {
  it('is none, and no less, where what is taxed is taken off again and more', async () => {
    await chargeTax(app, { taxed: { upkeep: taxedOnly('other'), new: taxedOnly() } })
    const { id, number } = await sendThreeYards(app)
    const answer = await confirmQuote(owner, number, {
      ...plain,
      'added.0.description': 'Paid before',
      'added.0.amount': '-300',
      'added.0.reason': 'paid',
    })
    expect(answer.status).toBe(303)
    expect(await linesOf(app, id)).toEqual(['finish 300.00', 'other -300.00', '0.00'])
  })

  it('isn’t put on for who has a certificate, whose number is shown', async () => {
    await chargeTax(app)
    const { id, number } = await sendThreeYards(app)
    await confirmQuote(owner, number, { ...plain, exempt: 'OH-4711' })
    expect(await linesOf(app, id)).toEqual(['finish 300.00', '300.00'])
    expect(await bookingWords(app, owner, number)).toContain(
      'No Sales tax: exempt under certificate OH-4711.',
    )
  })

  it('follows whether it is upkeep or new work', async () => {
    await chargeTax(app, { taxed: { upkeep: taxedOnly('all'), new: taxedOnly() } })
    const { id, number } = await sendThreeYards(app)
    await confirmQuote(owner, number, { ...plain, work: 'new' })
    expect(await linesOf(app, id)).toEqual(['finish 300.00', '300.00'])
    await confirmQuote(owner, number, { ...plain, work: 'upkeep' })
    expect(await linesOf(app, id)).toEqual(['finish 300.00', 'tax 24.75', '324.75'])
  })

  it('is in prices that have it in them, and said beside the total', async () => {
    await chargeTax(app, { rate: '0.20', prices: 'with', name: { en: 'VAT', es: 'IVA' } })
    const { id, number } = await sendThreeYards(app)
    await confirmQuote(owner, number, plain)
    expect(await linesOf(app, id)).toEqual(['finish 300.00', '300.00'])
    // A sixth of 300.
    expect(await bookingWords(app, owner, number)).toContain('The total includes VAT at 20%: $50.00.')
  })

  it('is taken off prices that have it in them for whoever is exempt', async () => {
    await chargeTax(app, { rate: '0.20', prices: 'with', name: { en: 'VAT', es: 'IVA' } })
    const { id, number } = await sendThreeYards(app)
    await confirmQuote(owner, number, { ...plain, exempt: 'C-14' })
    expect(await linesOf(app, id)).toEqual(['finish 300.00', 'tax -50.00', '250.00'])
    const words = await bookingWords(app, owner, number)
    expect(words).toContain('VAT taken off, 20%')
    expect(words).toContain('No VAT: exempt under certificate C-14.')
  })

  it('is worked out on the contractor’s own amounts and lines', async () => {
    await chargeTax(app, { taxed: { upkeep: taxedOnly('finish'), new: taxedOnly() } })
    const { id, number } = await sendThreeYards(app)
    await confirmQuote(owner, number, {
      ...plain,
      'lines.0.amount': '400',
      'lines.0.reason': 'steep',
      'added.0.description': 'Gravel path raked',
      'added.0.amount': '50',
      'added.0.reason': 'asked for',
    })
    expect(await linesOf(app, id)).toEqual(['finish 400.00', 'other 50.00', 'tax 33.00', '483.00'])
  })
})
