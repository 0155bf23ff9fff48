import { describe, expect, it } from 'vitest'
import { plainTerms, type Terms } from '../../src/estimate/job/terms.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import type { Tax } from '../../src/estimate/table/tax.ts'
import { jobOf, testTable } from '../estimate/jobs.ts'
import { taxedOnly, taxOf } from '../estimate/taxes.ts'

// Five kinds of rule, each worked by hand. Every rate and every price here is invented.
function priced(tax: Partial<Tax>, terms: Partial<Terms> = {}, postcode = '') {
  const table: RateTable = testTable({ tax: taxOf(tax), allowance: '0' })
  const known = {
    ...table,
    costs: { ...table.costs, wage: '20' },
    finishes: table.finishes.map(one => ({ ...one, materialCost: '30' })),
  }
  // 2 yd³ at 90 and 216 ft² of weeding at 0.20: 180.00 and 43.20, together 223.20. Two yards are bought for 60.
  const job = jobOf([{ shape: 'area', sizes: { area: '216' }, depth: '3' }], known, ['weeding'], postcode)
  return workOutPrice(job, known, { ...plainTerms, ...terms })
}

const named = (en: string) => ({ en, es: en })

describe('five kinds of rule', () => {
  // Ohio Department of Taxation, ST 2003-02: landscaping is taxed, all of it. Counties add theirs.
  it('all of it is taxed, the county’s tax on a line apart', () => {
    const county = { rate: '0.01', newRate: null, name: named('County tax') }
    const { tax, net, total } = priced({ rate: '0.0575', second: county })
    // 5.75 % of 223.20 is 12.834, 1 % of it 2.232.
    expect(tax).toEqual({
      rate: '0.0575',
      included: false,
      taxed: '223.20',
      untaxed: '0.00',
      amount: '12.83',
      off: '0.00',
      second: { rate: '0.01', amount: '2.23', off: '0.00' },
    })
    expect([net, total]).toEqual(['223.20', '238.26'])
  })

  // From memory, as Washington has it: labor on land is taxed at the rate of where the land is.
  it('labor is taxed at the place of the work', () => {
    const areas = [
      { postcodes: ['98101'], rate: '0.10', second: null },
      { postcodes: ['99*'], rate: '0.089', second: null },
    ]
    const labor = {
      rate: '0.08',
      areas,
      taxed: { upkeep: taxedOnly('finish', 'laying', 'extra'), new: taxedOnly() },
    }
    // 10 % and 8.9 % and 8 % of 223.20: 22.32, 19.8648 and 17.856.
    const amounts = ['98101', '99202', '97201'].map(postcode => priced(labor, {}, postcode).tax!.amount)
    expect(amounts).toEqual(['22.32', '19.86', '17.86'])
  })

  // New York, TB-ST-505: a new planting isn't taxed with a certificate of capital improvement; what the contractor buys
  // always is.
  it('new work is exempt by certificate, and taxed without one', () => {
    const tax: Partial<Tax> = {
      rate: '0.08',
      onPurchases: '0.08',
      taxed: { upkeep: taxedOnly('all'), new: taxedOnly() },
      newWork: { rate: null, name: { en: null, es: null }, certificate: true, asked: true },
    }
    const upkeep = priced(tax)
    const without = priced(tax, { work: 'new' })
    const certified = priced(tax, { work: 'new', certificate: 'ST-124 of June 3' })
    // 8 % of 223.20 is 17.856, of the 60 that are bought 4.80.
    expect([upkeep, without].map(({ tax }) => tax!.amount)).toEqual(['17.86', '17.86'])
    expect(certified.tax).toMatchObject({ taxed: '0.00', untaxed: '223.20', amount: '0.00' })
    expect(certified.total).toBe('223.20')
    expect([upkeep, without, certified].map(({ costs }) => costs!.purchaseTax)).toEqual([
      '4.80',
      '4.80',
      '4.80',
    ])
  })

  // Florida Department of Revenue, FAQ 1436: the customer is charged none, the contractor pays it on what he buys.
  it('goods are taxed and labor isn’t, the contractor being the consumer', () => {
    const nothing = { upkeep: taxedOnly(), new: taxedOnly() }
    const price = priced({ rate: '0.06', taxed: nothing, onPurchases: '0.06' })
    // 6 % of 60; 2 yd³ at 0.75 h and 216 ft² at 0.002 h are 1.50 and 0.43 h, 38.60 of wages.
    expect([price.tax!.amount, price.total]).toEqual(['0.00', '223.20'])
    expect(price.costs).toMatchObject({
      material: '60.00',
      purchaseTax: '3.60',
      labor: '38.60',
      total: '102.20',
    })
  })

  // From memory, as South Dakota has it: everything is taxed, a city adds its own; new work has a contractor's tax
  // instead, without the city's, and the contractor pays tax on what he puts in.
  it('everything is taxed, with a contractor’s tax on new work', () => {
    const tax: Partial<Tax> = {
      rate: '0.042',
      second: { rate: '0.02', newRate: '0', name: named('City tax') },
      newWork: { rate: '0.02', name: named('Contractor’s tax'), certificate: false, asked: true },
      onPurchases: '0.062',
      purchasesGivenBack: true,
      onPurchasesNew: '0.062',
    }
    const [upkeep, fresh] = [priced(tax), priced(tax, { work: 'new' })]
    // 4.2 % and 2 % of 223.20 are 9.3744 and 4.464; 6.2 % of 60 is 3.72.
    expect([upkeep.tax!.amount, upkeep.tax!.second!.amount, upkeep.total]).toEqual(['9.37', '4.46', '237.03'])
    expect([fresh.tax!.amount, fresh.tax!.second!.amount, fresh.total]).toEqual(['4.46', '0.00', '227.66'])
    expect([upkeep, fresh].map(({ costs }) => costs!.purchaseTax)).toEqual(['0.00', '3.72'])
  })
})
