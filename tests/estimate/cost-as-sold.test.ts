import { expect, test } from 'vitest'
import { jobQuantities } from '../../src/estimate/job/quantities.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import { spreadsOf } from '../../src/estimate/scenarios/range.ts'
import type { Finish, RateTable } from '../../src/estimate/table/rate-table.ts'
import { worksheetOf } from '../../src/estimate/worksheet/worksheet.ts'
import { costTable } from './cost-priced.ts'
import { jobOf } from './jobs.ts'

/** Straw by the bale of 20 ft² at 3 in, so 5 ft³, priced by its cost of so much. */
function straw(cost: Partial<Finish>): RateTable {
  const table = costTable()
  const bale = { saleUnit: 'bale', baleCovers: '20', soldDepth: '3', pricedBy: 'cost' } as const
  return {
    ...table,
    finishes: table.finishes.map(one => (one.slug === 'pine-straw' ? { ...one, ...bale, ...cost } : one)),
  }
}

const byBale = straw({ materialCost: '6', materialCostPer: 'sold' })
// $6 for 5 ft³ are $32.40 for 27.
const byYard = straw({ materialCost: '32.40', materialCostPer: 'volume' })
const bed = { finish: 'pine-straw', measuredBy: 'eye' }

// 100 ft² × 3 in are 25 ft³, 26.25 with 5 % more: 5.25 bales × $6.
test('what a bale costs is typed by the bale, and told so', () => {
  const job = jobOf([bed], byBale)
  expect(workOutPrice(job, byBale).shopping.finishes[0]!.buying!.taken.material.toFixed(2)).toBe('31.50')
  expect(worksheetOf(job, byBale).buying[0]!.steps).toContain('5.25 bales × $6.00 = $31.50')
})

test('it comes to the same price and the same range as by the yard', () => {
  const [bales, yards] = [byBale, byYard].map(table => {
    const job = jobOf([bed], table)
    const { low, high } = spreadsOf(job, jobQuantities(job, table), table)()
    return { total: workOutPrice(job, table).total, low, high }
  })
  expect(bales!.total).toBe(yards!.total)
  expect(Math.abs(bales!.low - yards!.low)).toBeLessThanOrEqual(1)
  expect(Math.abs(bales!.high - yards!.high)).toBeLessThanOrEqual(1)
})

test('labor hours on a job of mixed units are told by each material in its own', () => {
  // 25 ft³ are 5 bales; with 25 ft³ of wood 50 ft³ = 1.85 yd³.
  const steps = worksheetOf(jobOf([bed, {}], byBale), byBale).labor
  expect(steps[0]).toMatch(/^Spreading: 0\.93 yd³ of shredded wood \+ 5 bales of pine straw \(1\.85 yd³\) × /)
})
