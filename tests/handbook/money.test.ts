import { describe, expect, it } from 'vitest'
import { plusFactor } from '../../src/estimate/price/cost-plus.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import { wageCost } from '../../src/estimate/table/crew.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { jobOf, testTable } from '../estimate/jobs.ts'

/** A yd³ that costs so much and nothing else, priced by its cost. */
function pricedAt(materialCost: string, costPlus: RateTable['costPlus']) {
  const table = testTable({ allowance: '0', costPlus })
  const { labor, costs } = table
  const idle: RateTable = {
    ...table,
    labor: { ...labor, spread: { lower: '0', upper: '0' } },
    costs: { ...costs, wage: '0' },
    finishes: table.finishes.map(finish => ({ ...finish, pricedBy: 'cost', materialCost })),
  }
  return workOutPrice(jobOf([{ shape: 'volume', sizes: { volume: '1 yd' } }], idle), idle)
}

describe('markup and margin', () => {
  // Penn State Extension, 2024: a cost of $5 and 30 % markup is a price of $6.50, a margin of 23 %.
  it('a cost of 5 with a markup of 30 % is a price of 6.50, a margin of 23 %', () => {
    const price = pricedAt('5', { by: 'markup', share: '0.30' })
    expect([price.cost, price.total]).toEqual(['5.00', '6.50'])
    expect(Number(price.margin)).toBeCloseTo(0.23, 2)
  })

  // Price = cost × (1 + markup) = cost ÷ (1 − margin): exact arithmetic.
  it.each([
    ['0.25', '0.20'],
    ['0.333333333', '0.25'],
    ['0.50', '0.333333333'],
    ['1', '0.50'],
  ])('a markup of %s is a margin of %s', (markup, margin) => {
    const [up, off] = [
      pricedAt('300', { by: 'markup', share: markup }),
      pricedAt('300', { by: 'margin', share: margin }),
    ]
    expect(up.total).toBe(off.total)
    expect(Number(up.margin)).toBeCloseTo(Number(margin), 4)
    const factor = plusFactor({ costPlus: { by: 'margin', share: margin } })
    expect(factor.toNumber()).toBeCloseTo(1 + Number(markup), 8)
  })
})

// SCORE: payroll taxes on the employer are 7.65 % of the wage; a burden is 15 to 50 % of it in all. The wage is invented.
it.each([
  ['0.0765', 21.53],
  ['0.15', 23],
  ['0.50', 30],
])('a wage of 20 with a burden of %s costs %s an hour', (burden, cost) => {
  const { costs } = testTable()
  expect(wageCost(testTable({ costs: { ...costs, wage: '20', burden } }))!.toNumber()).toBeCloseTo(cost, 10)
})

// F. W. Taylor, Shop Management, 1911: barrows of 2.32 ft³ wheeled 50 ft, 43 loads in 122 min: 33.0 min a cubic yard; so ten
// yards are 5.5 h, and at an invented 30 an hour 165 of labor.
it('Taylor’s barrows make ten yards cost five and a half hours', () => {
  const minutes = (122 / 43 / 2.32) * 27
  expect(minutes).toBeCloseTo(33.0, 1)
  const spread = { lower: (minutes / 60).toFixed(9), upper: (minutes / 60).toFixed(9) }
  const table = testTable()
  const known: RateTable = {
    ...table,
    labor: { ...table.labor, spread, carry: { free: '50', each: '50', adds: '1' } },
    costs: { ...table.costs, wage: '30' },
    finishes: table.finishes.map(finish => ({ ...finish, materialCost: '0' })),
  }
  const price = workOutPrice(jobOf([{ shape: 'volume', sizes: { volume: '10 yd' } }], known), known)
  expect(price.laborHoursTotal).toBe('5.50')
  expect(price.costs!.labor).toBe('165.00')
})
