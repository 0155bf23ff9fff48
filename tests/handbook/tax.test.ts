import { describe, expect, it } from 'vitest'
import { plainTerms, type Terms } from '../../src/estimate/job/terms.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import type { Extra, Finish, RateTable } from '../../src/estimate/table/rate-table.ts'
import type { Tax } from '../../src/estimate/table/tax.ts'
import { jobOf, testTable } from '../estimate/jobs.ts'
import { taxedOnly, taxOf } from '../estimate/taxes.ts'

// How states tax, as they publish it; every rate and every price here is invented.
function priced(
  tax: Partial<Tax>,
  terms: Partial<Terms> = {},
  { finish = {}, extra = {} }: { finish?: Partial<Finish>; extra?: Partial<Extra> } = {},
) {
  const table: RateTable = testTable({ tax: taxOf(tax), allowance: '0' })
  const known = {
    ...table,
    costs: { ...table.costs, wage: '20' },
    finishes: table.finishes.map(one => ({ ...one, materialCost: '30', ...finish })),
    extras: table.extras.map(one => ({ ...one, ...extra })),
  }
  // 2 yd³ at 90 and 216 ft² of weeding at 0.20: 180.00 and 43.20.
  const beds = [{ shape: 'area', sizes: { area: '216' }, depth: '3' }]
  return workOutPrice(jobOf(beds, known, ['weeding']), known, { ...plainTerms, ...terms })
}

describe('ways of taxing', () => {
  // Ohio Department of Taxation, ST 2003-02: landscaping is taxed, all of it.
  it('Ohio: all of it', () => {
    const price = priced({ rate: '0.0675' })
    // 6.75 % of 223.20 is 15.066.
    expect(price).toMatchObject({ net: '223.20', total: '238.27' })
    expect(price.tax).toMatchObject({ taxed: '223.20', untaxed: '0.00', amount: '15.07' })
  })

  // New York, TB-ST-505: upkeep is taxed; a new planting isn't with a certificate of capital improvement; what the
  // contractor buys is always taxed.
  it('New York: upkeep, not new work, and purchases always', () => {
    const tax = { rate: '0.08', onPurchases: '0.08', taxed: { upkeep: taxedOnly('all'), new: taxedOnly() } }
    // 8 % of 223.20, and of 60 for what is bought.
    const [upkeep, fresh] = [priced(tax), priced(tax, { work: 'new' })]
    expect([upkeep.tax!.amount, upkeep.costs!.purchaseTax]).toEqual(['17.86', '4.80'])
    expect([fresh.tax!.amount, fresh.total, fresh.costs!.purchaseTax]).toEqual(['0.00', '223.20', '4.80'])
  })

  // Minnesota Department of Revenue: mulch with a first planting isn't taxed, putting fresh mulch on a bed is.
  it('Minnesota: a refresh, not a first planting', () => {
    const tax = { rate: '0.07', taxed: { upkeep: taxedOnly('all'), new: taxedOnly('extra') } }
    expect(priced(tax).tax).toMatchObject({ taxed: '223.20', amount: '15.62' })
    expect(priced(tax, { work: 'new' }).tax).toMatchObject({ taxed: '43.20', amount: '3.02' })
  })

  // Florida Department of Revenue, FAQ 1436: the customer is charged none, the contractor pays it on purchases.
  it('Florida: none to the customer, and a cost to the owner', () => {
    const taxed = { upkeep: taxedOnly(), new: taxedOnly() }
    const [price, without] = ['0.065', '0'].map(onPurchases => priced({ rate: '0', taxed, onPurchases }))
    expect(price!.total).toBe('223.20')
    expect(price!.costs!.purchaseTax).toBe('3.90')
    expect(Number(price!.cost) - Number(without!.cost)).toBeCloseTo(3.9, 10)
    expect(Number(price!.margin)).toBeLessThan(Number(without!.margin))
  })

  // Virginia, P.D. 98-99: labor isn't taxed, if the bill shows it apart.
  it('Virginia: labor only where it isn’t shown apart', () => {
    const taxed = { upkeep: taxedOnly('finish'), new: taxedOnly('finish') }
    const together = priced({ rate: '0.05', taxed })
    const apart = priced({ rate: '0.05', taxed }, {}, { finish: { materialShare: '0.4' } })
    expect(together.tax).toMatchObject({ taxed: '180.00', amount: '9.00' })
    // Four tenths of 180 are 72; the rest is a line of its own.
    expect(apart.lines.map(({ kind, amount }) => [kind, amount])).toEqual([
      ['finish', '72.00'],
      ['laying', '108.00'],
      ['extra', '43.20'],
    ])
    expect(apart.tax).toMatchObject({ taxed: '72.00', untaxed: '151.20', amount: '3.60' })
    expect(apart.net).toBe(together.net)
  })

  it('a customer with a certificate is charged none, anywhere', () => {
    expect(priced({ rate: '0.0675' }, { exempt: 'EX-123' })).toMatchObject({ total: '223.20' })
  })
})
