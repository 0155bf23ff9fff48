import { describe, expect, it } from 'vitest'
import { workOutBallpark } from '../../../src/estimate/ballpark/ballpark.ts'
import type { BedTold } from '../../../src/estimate/job/bed.ts'
import { plainTerms, termsTold } from '../../../src/estimate/job/terms.ts'
import { workOutPrice } from '../../../src/estimate/price/firm-price.ts'
import { siteExtras } from '../../../src/estimate/starter/starter-extras.ts'
import type { RateTable } from '../../../src/estimate/table/rate-table.ts'
import type { Tax } from '../../../src/estimate/table/tax.ts'
import { jobOf, testTable } from '../jobs.ts'
import { taxOf } from '../taxes.ts'

const names = { en: null, es: null }
const newWork = { rate: '0.02', name: names, certificate: false, asked: true }

// Shredded wood at exactly 90 a yard, and a tape that never errs, so that a range is one price. Rates are invented.
function tableOf(tax: Partial<Tax>, changes: Partial<RateTable> = {}): RateTable {
  const table = testTable({ tax: taxOf({ inRanges: true, newWork, ...tax }), step: '0.01', ...changes })
  const measuring = { ...table.measuring, tape: { sigma: '0', rho: '0' } }
  const finishes = table.finishes.map(one => ({ ...one, rates: [{ lower: '90', upper: '90' }] }))
  return { ...table, measuring, finishes }
}

const bed: Partial<BedTold> = { shape: 'volume', sizes: { volume: '2 yd' } }
const fresh = { ...bed, work: 'new' }
const told = (beds: Partial<BedTold>[], tax: Partial<Tax> = {}, extras: string[] = []) => {
  const table = tableOf(tax)
  const withSite = {
    ...table,
    extras: [...table.extras, ...siteExtras('us').map(one => ({ ...one, lower: '0', upper: '0' }))],
  }
  const job = jobOf(beds, withSite, extras)
  return { job, table: withSite, terms: termsTold(job, withSite), ...workOutBallpark(job, withSite) }
}

describe('the kind of work that was told', () => {
  it('is new where all beds are, and nothing old is taken out of any', () => {
    expect(told([fresh, fresh]).terms).toEqual({ ...plainTerms, work: 'new' })
    expect(told([fresh, bed]).terms).toEqual(plainTerms)
    expect(told([fresh], {}, ['old-out']).terms).toEqual(plainTerms)
    const unasked = { newWork: { ...newWork, asked: false } }
    expect(told([fresh], unasked).terms).toEqual(plainTerms)
  })

  it('is what ranges and a price that nobody settled yet are taxed by', () => {
    // 8 % or 2 % on 180.
    for (const [beds, tax, likely] of [
      [[bed], { rate: '0.08', inRange: true }, '194.40'],
      [[fresh], { rate: '0.02', inRange: true, newWork: true }, '183.60'],
    ] as const) {
      const ballpark = told([...beds])
      expect([ballpark.tax, ballpark.range.likely]).toEqual([tax, likely])
      expect(workOutPrice(ballpark.job, ballpark.table).total).toBe(likely)
      // A told volume may be 5 % out.
      expect(Number(ballpark.range.low)).toBeLessThan(Number(likely))
      expect(Number(ballpark.range.low)).toBeGreaterThan(0.85 * Number(likely))
    }
  })

  it('is taxed as upkeep where it would take a certificate, and that is said', () => {
    const { tax, range } = told([fresh], { newWork: { ...newWork, certificate: true } })
    expect([tax, range.likely]).toEqual([{ rate: '0.08', inRange: true, certificate: true }, '194.40'])
  })

  it('brings in both taxes', () => {
    const second = { rate: '0.02', newRate: '0', name: { en: 'City', es: 'Ciudad' } }
    const upkeep = told([bed], { second })
    // 10 % on 180; the range is the same one as with a single tax of 10 %.
    expect(upkeep.tax).toEqual({ rate: '0.08', inRange: true, second: '0.02' })
    expect(upkeep.range).toEqual(told([bed], { rate: '0.10' }).range)
    expect(upkeep.range.likely).toBe('198.00')
    expect(told([fresh], { second }).tax).toEqual({ rate: '0.02', inRange: true, newWork: true })
  })

  it('pays the tax of its kind on what it buys, which is in prices by cost too', () => {
    const costs = {
      ...testTable().costs,
      wage: '0',
      burden: '0',
      overheadPerLaborHour: '0',
      truckPerJob: '0',
      truckPerTrip: '0',
    }
    const table = tableOf({
      rate: '0',
      newWork: { ...newWork, rate: '0' },
      onPurchases: '0',
      onPurchasesNew: '0.10',
    })
    const byCost = {
      ...table,
      costs,
      allowance: '0',
      costPlus: { by: 'markup', share: '1' } as const,
      finishes: table.finishes.map(one => ({ ...one, materialCost: '30', pricedBy: 'cost' as const })),
    }
    const [old, now] = [bed, fresh].map(one => {
      const job = jobOf([one], byCost)
      const { range } = workOutBallpark(job, byCost)
      expect(workOutPrice(job, byCost).total).toBe(range.likely)
      return range
    })
    // Twice 60, and twice 60 and 10 % of it; what the scenarios buy is dearer by as much.
    expect([old!.likely, now!.likely]).toEqual(['120.00', '132.00'])
    expect(Number(now!.low)).toBeCloseTo(1.1 * Number(old!.low), 1)
    expect(Number(now!.high)).toBeCloseTo(1.1 * Number(old!.high), 1)
  })
})
