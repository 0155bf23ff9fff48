import { describe, expect, it } from 'vitest'
import { type BillOf, composeBill } from '../../src/billing/compose-bill.ts'
import type { Tax } from '../../src/estimate/table/tax.ts'
import type { QuoteWithLines } from '../../src/quotes/queries.ts'
import { testTable } from '../estimate/jobs.ts'
import { taxedOnly, taxOf } from '../estimate/taxes.ts'

// Mulch for 180.00, weeding for 43.20, travel for 25.00. Every rate and every price is invented.
function billed(now: Partial<Tax>, instead: Partial<BillOf> = {}, then: Partial<Tax> = { rate: '0.05' }) {
  const line = (position: number, kind: string, slug: string | null, amount: string) => ({
    ...{ position, kind, slug, amount, worked_out: amount },
    ...{ description: null, quantity: null, unit: null, rate: null, reason: null },
  })
  const lines = [
    line(1, 'finish', 'shredded-wood', '180.00'),
    line(2, 'extra', 'weeding', '43.20'),
    line(3, 'travel', null, '25.00'),
    { ...line(4, 'tax', null, '12.41'), rate: '0.05' },
  ]
  const terms = { work: 'upkeep', exempt: '', adjustment: null }
  const quote = { lines, terms, currency: 'USD' } as unknown as QuoteWithLines
  return composeBill({
    ...{ quote, shares: [], done: [], added: [], postcode: '', exempt: '', showRates: false },
    tables: { quote: testTable({ tax: taxOf(then) }), now: testTable({ tax: taxOf(now) }) },
    ...instead,
  })
}
const amounts = (bill: ReturnType<typeof billed>) => bill.lines.map(({ kind, amount }) => [kind, amount])

describe('tax on the day of the bill', () => {
  // Ohio Department of Taxation, ST 2003-02: landscaping is taxed, all of it.
  it('goes by the rate in force then, not by the one of the price', () => {
    const bill = billed({ rate: '0.0675' })
    // 6.75 % of 248.20 is 16.7535.
    expect(amounts(bill)).toEqual([
      ['finish', '180.00'],
      ['extra', '43.20'],
      ['travel', '25.00'],
      ['tax', '16.75'],
    ])
    expect(bill.total).toBe('264.95')
    expect(bill.lines.at(-1)!.words.en).toContain('6.75%')
  })

  // Virginia, P.D. 98-99: labor isn't taxed where the bill shows it apart.
  it('is on what the rules of then take', () => {
    const material = { upkeep: taxedOnly('finish'), new: taxedOnly('finish') }
    // 5 % of 180.00.
    expect(billed({ rate: '0.05', taxed: material })).toMatchObject({ total: '257.20' })
  })

  // New York, TB-ST-505: whoever gives a certificate is charged none.
  it('is none by a certificate that is good then, and says by which', () => {
    const bill = billed({ rate: '0.08' }, { exempt: 'EX-9' })
    expect(bill).toMatchObject({ total: '248.20', tax: { amount: '0.00' } })
    expect(bill.taxNote!.en).toContain('EX-9')
  })

  it('stays within prices that were accepted with it', () => {
    const bill = billed({ rate: '0.0675', prices: 'without' }, {}, { rate: '0.05', prices: 'with' })
    // 248.20 less 248.20 / 1.0675, which is 232.506, has 15.69 of it.
    expect(bill).toMatchObject({ total: '248.20', tax: { included: true, amount: '15.69' } })
  })
})

describe('what is billed', () => {
  it('is what was done of each line, the rest wholly, and says so', () => {
    const done = [{ position: 1, stop: null, share: '0.5' }]
    const bill = billed({ rate: '0' }, { done })
    expect(amounts(bill)).toEqual([
      ['finish', '90.00'],
      ['extra', '43.20'],
      ['travel', '25.00'],
    ])
    expect(bill.lines[0]!.quantity).toEqual({ en: '50% of it done', es: 'hecho en un 50%' })
    expect(bill.lines[1]!.quantity).toBeNull()
  })

  it('is by stop what was done there; a line of which nothing was is left out', () => {
    const shares = [
      { position: 1, stop: 0, amount: '100.01' },
      { position: 1, stop: 1, amount: '79.99' },
      { position: 2, stop: 1, amount: '43.20' },
    ]
    const done = [
      { position: 1, stop: 0, share: '0.5' },
      { position: 2, stop: 1, share: '0' },
    ]
    const bill = billed({ rate: '0' }, { shares, done })
    // Half of 100.01 is 50.005, half a cent up.
    expect(amounts(bill)).toEqual([
      ['finish', '130.00'],
      ['travel', '25.00'],
    ])
    expect(bill.shares).toEqual([
      { position: 1, stop: 0, amount: '50.01' },
      { position: 1, stop: 1, amount: '79.99' },
    ])
  })

  it('has the owner’s own lines, which are taxed as such', () => {
    const added = [{ description: 'Thank you', amount: '-20.00' }]
    // 10 % of 228.20.
    expect(amounts(billed({ rate: '0.1' }, { added })).slice(3)).toEqual([
      ['other', '-20.00'],
      ['tax', '22.82'],
    ])
  })
})
