import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { json } from '../../src/db/json.ts'
import type { RateTable } from '../../src/estimate/rate-table.ts'
import { findNewestQuote } from '../../src/queue/queries.ts'
import { findRateTable } from '../../src/rates/queries.ts'
import { taxedOnly, taxOf } from '../estimate/taxes.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { confirmQuote, hiddenFields, postQuote } from '../helpers/quotes.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  // Shredded wood at 80 to 120: 100 in the middle.
  owner = (await openBusiness(app, { 'rates.shredded-wood.0.upper': '120' })).owner
})
afterAll(() => app.close())

// 81 ft³ is 3 yd³: 300.00. At 43004, so with no travel charge: it isn't served, which a quote may overrule.
const beds = (finish = 'shredded-wood') =>
  told(bedTold({ sizes: { length: '27 ft', width: '12 ft' }, finish }))

async function changeRates(change: (body: RateTable) => RateTable): Promise<void> {
  const { version, body } = (await findRateTable(app.db, app.deps.now()))!
  await app.db
    .insertInto('rate_table')
    .values({
      version: version + 1,
      body: json(change(body)),
      made_at: app.deps.now().toString(),
      made_by: 1,
    })
    .execute()
}

// An invented 8.25 % on everything, upkeep and new work alike.
const tax = (changes: Parameters<typeof taxOf>[0] = {}) =>
  changeRates(body => ({ ...body, tax: taxOf({ rate: '0.0825', ...changes }) }))

async function send(finish?: string) {
  return sendRequest(app, { told: beds(finish) })
}

const plain = { do: 'confirm', crewHours: '3', note: '' }

async function linesOf(id: number) {
  const quote = (await findNewestQuote(app.db, id))!
  return [...quote.lines.map(({ kind, amount }) => `${kind} ${amount}`), quote.total]
}

async function bookingWords(number: string, id: number): Promise<string> {
  const page = await owner.get(`/queue/${number}/hand-over`)
  const [link] = /\/b\/[\w.-]+|\/booking\/[\w.-]+/.exec(page.text) ?? []
  if (!link) throw new Error(`No booking link for ${id} on the page to hand over`)
  const shown = await app.browser().get(link)
  expect(shown.status).toBe(200)
  return shown.text.replace(/<[^>]*>/g, '').replace(/\s+/g, ' ')
}

describe('a discount', () => {
  it('is kept with its reason, shown to the homeowner, and taken off before the tax', async () => {
    await tax()
    const { id, number } = await send()
    const answer = await confirmQuote(owner, number, {
      ...plain,
      adjustment: '-10 %',
      adjustmentReason: 'a neighbour of last year',
    })
    expect(answer.status).toBe(303)
    // 300 less 30 is 270; 8.25 % of it 22.275.
    expect(await linesOf(id)).toEqual(['finish 300.00', 'adjustment -30.00', 'tax 22.28', '292.28'])
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
    })
    const words = await bookingWords(number, id)
    expect(words).toContain('Discount: a neighbour of last year')
    expect(words).toContain('Sales tax, 8.25 %')
    expect(words).toContain('$22.28')
    expect(words).toContain('$292.28')
  })

  it('is refused without a reason, or when it is no figure, with what was typed', async () => {
    const { id, number } = await send()
    for (const [typed, said] of [
      [{ adjustment: '-10 %' }, 'Say why: the homeowner reads this with the line.'],
      [{ adjustment: 'a tenth', adjustmentReason: 'x' }, 'Give a share, as -10 %'],
      [{ adjustment: '-101 %', adjustmentReason: 'x' }, 'Give a share, as -10 %'],
    ] as const) {
      const answer = await confirmQuote(owner, number, { ...plain, ...typed })
      expect(answer.status).toBe(422)
      expect(answer.text).toContain(said)
      expect(answer.text).toContain(`value="${typed.adjustment}"`)
    }
    expect(await findNewestQuote(app.db, id)).toBeUndefined()
  })

  it('in money, and a surcharge, work alike; another revision begins with it', async () => {
    await tax({ rate: '0' })
    const { id, number } = await send()
    await confirmQuote(owner, number, { ...plain, adjustment: '-12.50', adjustmentReason: 'late' })
    expect(await linesOf(id)).toEqual(['finish 300.00', 'adjustment -12.50', '287.50'])
    const page = await owner.get(`/queue/${number}/quote`)
    expect(page.text).toContain('value="-12.50"')
    await confirmQuote(owner, number, { ...plain, adjustment: '25 %', adjustmentReason: 'steep' })
    expect(await linesOf(id)).toEqual(['finish 300.00', 'adjustment 75.00', '375.00'])
    expect(await bookingWords(number, id)).toContain('Surcharge: steep')
  })
})

describe('a discount as a share', () => {
  const changed = {
    'lines.0.amount': '400',
    'lines.0.reason': 'steep',
    adjustment: '-10 %',
    adjustmentReason: 'a neighbour',
  }

  it('is of the contractor’s own amounts', async () => {
    await tax({ rate: '0' })
    const { id, number } = await send()
    await confirmQuote(owner, number, { ...plain, ...changed })
    expect(await linesOf(id)).toEqual(['finish 400.00', 'adjustment -40.00', '360.00'])
  })

  it('and a line of his own that takes off more than is left are refused together', async () => {
    const { id, number } = await send()
    const form = {
      ...plain,
      ...changed,
      adjustment: '-50 %',
      'added.0.description': 'Paid before',
      'added.0.amount': '-220',
      'added.0.reason': 'paid',
    }
    const answer = await confirmQuote(owner, number, form)
    expect(answer.status).toBe(422)
    expect(answer.text).toContain('The lines come to less than nothing.')
    expect(await findNewestQuote(app.db, id)).toBeUndefined()
  })
})

describe('tax', () => {
  it('is none, and no less, where what is taxed is taken off again and more', async () => {
    await tax({ taxed: { upkeep: taxedOnly('other'), new: taxedOnly() } })
    const { id, number } = await send()
    const answer = await confirmQuote(owner, number, {
      ...plain,
      'added.0.description': 'Paid before',
      'added.0.amount': '-300',
      'added.0.reason': 'paid',
    })
    expect(answer.status).toBe(303)
    expect(await linesOf(id)).toEqual(['finish 300.00', 'other -300.00', '0.00'])
  })

  it('isn’t put on for who has a certificate, whose number is shown', async () => {
    await tax()
    const { id, number } = await send()
    await confirmQuote(owner, number, { ...plain, exempt: 'OH-4711' })
    expect(await linesOf(id)).toEqual(['finish 300.00', '300.00'])
    expect(await bookingWords(number, id)).toContain('No Sales tax: exempt by certificate OH-4711.')
  })

  it('follows whether it is upkeep or new work', async () => {
    await tax({ taxed: { upkeep: taxedOnly('all'), new: taxedOnly() } })
    const { id, number } = await send()
    await confirmQuote(owner, number, { ...plain, work: 'new' })
    expect(await linesOf(id)).toEqual(['finish 300.00', '300.00'])
    await confirmQuote(owner, number, { ...plain, work: 'upkeep' })
    expect(await linesOf(id)).toEqual(['finish 300.00', 'tax 24.75', '324.75'])
  })

  it('is in prices that have it in them, and said beside the total', async () => {
    await tax({ rate: '0.20', prices: 'with', name: { en: 'VAT', es: 'IVA' } })
    const { id, number } = await send()
    await confirmQuote(owner, number, plain)
    expect(await linesOf(id)).toEqual(['finish 300.00', '300.00'])
    // A sixth of 300.
    expect(await bookingWords(number, id)).toContain('The total includes VAT at 20 %: $50.00.')
  })

  it('is worked out on the contractor’s own amounts and lines', async () => {
    await tax({ taxed: { upkeep: taxedOnly('finish'), new: taxedOnly() } })
    const { id, number } = await send()
    await confirmQuote(owner, number, {
      ...plain,
      'lines.0.amount': '400',
      'lines.0.reason': 'steep',
      'added.0.description': 'Gravel path raked',
      'added.0.amount': '50',
      'added.0.reason': 'asked for',
    })
    expect(await linesOf(id)).toEqual(['finish 400.00', 'other 50.00', 'tax 33.00', '483.00'])
  })
})

it('the same form five times at once makes one quote, with one line of tax', async () => {
  await tax()
  const { id, number } = await send()
  const form = {
    ...(await hiddenFields(owner, number)),
    ...plain,
    adjustment: '-10 %',
    adjustmentReason: 'a neighbour',
  }
  const answers = await Promise.all(Array.from({ length: 5 }, () => postQuote(owner, number, form)))
  expect(answers.map(answer => answer.status)).toEqual([303, 303, 303, 303, 303])
  const quotes = await app.db.selectFrom('quote').select('id').where('quote_request_id', '=', id).execute()
  expect(quotes).toHaveLength(1)
  expect(await linesOf(id)).toEqual(['finish 300.00', 'adjustment -30.00', 'tax 22.28', '292.28'])
  // Other terms are another quote, so the same revision again is refused.
  const other = await postQuote(owner, number, { ...form, exempt: 'OH-1' })
  expect(other.status).toBe(409)
})

it('setting up for a finish priced by its cost is a line with its name, also for the homeowner', async () => {
  await changeRates(body => ({
    ...body,
    tax: null,
    finishes: body.finishes.map(finish =>
      finish.slug === 'compost' ? { ...finish, pricedBy: 'cost', materialCost: '30' } : finish,
    ),
    allowance: '0',
    costPlus: { by: 'markup', share: '0.5' },
    costs: { ...body.costs, crewHour: '20', truckPerJob: '16' },
  }))
  const { id, number } = await send('compost')
  const page = await owner.get(`/queue/${number}/quote`)
  expect(page.text).toContain('Setting up')
  await confirmQuote(owner, number, plain)
  // 3 yd³ at 30 and 3 h at 20 and half on it; 16 and half on it.
  expect(await linesOf(id)).toEqual(['finish 225.00', 'set-up 24.00', '249.00'])
  expect(await bookingWords(number, id)).toMatch(/Setting up ?\$24\.00/)
})
