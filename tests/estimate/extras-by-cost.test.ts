import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { workOutBallpark } from '../../src/estimate/ballpark/ballpark.ts'
import { jobQuantities } from '../../src/estimate/job/quantities.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import { spreadsOf } from '../../src/estimate/scenarios/range.ts'
import type { Extra, RateTable } from '../../src/estimate/table/rate-table.ts'
import { rateTableSchema } from '../../src/estimate/table/rate-table-schema.ts'
import { worksheetOf } from '../../src/estimate/worksheet/worksheet.ts'
import { costTable } from './cost-priced.ts'
import { anyBeds } from './generated.ts'
import { jobOf } from './jobs.ts'
import { extraOf, flat, piece, roll } from './packs/made.ts'

const hours = (each: string): Extra['laborHours'] => ({ lower: each, upper: each })

// A labor hour costs $24 × 1.25 + $8 = $38; a margin of 40 % makes a cost of $0.60 a price of $1.
const edging: Partial<Extra> = {
  slug: 'metal-edging',
  name: { en: 'Metal edging', es: 'Borde de metal' },
  per: 'edge',
  pricedBy: 'cost',
  waste: '0.10',
  laborHours: hours('0.03'),
  packs: [piece({ length: '8', stakes: '3', stakeEach: '0.40', prices: flat('12.50') })],
}

function tableWith(...extras: Partial<Extra>[]): RateTable {
  return costTable({ extras: extras.map(extra => extraOf({ pricedBy: 'cost', ...extra })) })
}

const bed = { finish: 'compost' }
const lineOf = (table: RateTable, slug: string) => {
  const { lines } = workOutPrice(jobOf([bed], table, [slug]), table)
  return lines.filter(line => line.slug === slug).map(({ kind, amount }) => [kind, amount])
}

describe('an extra priced by its cost, worked by hand', () => {
  // 50 ft × 1.1 ÷ 8 ft = 6.875, so 7 × ($12.50 + 3 × $0.40) = $95.90; 50 ft × 0.03 h × $38 = $57; $152.90 ÷ 0.6.
  it('in whole pieces with their stakes, what is cut off, labor and margin', () => {
    expect(lineOf(tableWith(edging), 'metal-edging')).toEqual([['extra', '254.83']])
  })

  it('with its material and its labor on two lines, for tax', () => {
    expect(lineOf(tableWith({ ...edging, materialShare: '0.6' }), 'metal-edging')).toEqual([
      ['extra', '152.90'],
      ['extra-labor', '101.93'],
    ])
  })

  // Two strips of 20 ft, × 1.3 = 52 ft, so 2 rolls of 50 ft at $30; 100 ft² × 0.004 h × $38 = $15.20; $75.20 ÷ 0.6.
  it('in whole rolls by strips', () => {
    const packs = [roll({ width: '4', length: '50', overlap: '0.5', strips: true, prices: flat('30') })]
    const fabric = { slug: 'fabric', per: 'area' as const, waste: '0.3', laborHours: hours('0.004'), packs }
    expect(lineOf(tableWith(fabric), 'fabric')).toEqual([['extra', '125.33']])
  })

  // 100 ft² × 1.1 × $0.22 = $24.20, and the same $15.20; $39.40 ÷ 0.6.
  it('by what its material costs for each, where no packs are listed; the job’s cost has it too', () => {
    const fabric = { slug: 'fabric', per: 'area' as const, waste: '0.1', laborHours: hours('0.004') }
    const table = tableWith({ ...fabric, materialCost: '0.22' })
    expect(lineOf(table, 'fabric')).toEqual([['extra', '65.67']])
    const buying = workOutPrice(jobOf([bed], table, ['fabric']), table).shopping.extras[0]!.buying
    expect(buying.taken.material.toFixed(2)).toBe('24.20')
  })

  // 2 h × $38 ÷ 0.6.
  it('by its labor alone where it needs nothing', () => {
    const table = tableWith({ slug: 'hauling', per: 'job', laborHours: hours('2') })
    expect(lineOf(table, 'hauling')).toEqual([['extra', '126.67']])
  })

  it('told by its factors, and what is bought step by step', () => {
    const table = tableWith(edging)
    const { price, buying } = worksheetOf(jobOf([bed], table, ['metal-edging']), table)
    expect(price).toContain('Metal edging: ($95.90 to buy + 50 ft × 0.03 h × $38.00) ÷ (1 − 0.4) = $254.83')
    expect(buying.find(({ name }) => name === 'Metal edging')!.steps).toEqual([
      '50 ft × (1 + 0.1 for waste) ÷ 8 ft = 6.88, so 7 × piece, picked up; 7 × $12.50 with 3 stakes each at $0.40 = $95.90',
    ])
  })
})

/** The range before its step, in cents. */
function spreadOf(table: RateTable, slug: string) {
  const job = jobOf([{ measuredBy: 'eye', finish: 'compost' }, { measuredBy: 'paces' }], table, [slug])
  return spreadsOf(job, jobQuantities(job, table), table)()
}

// $1.30 and 0.02 h × $38 are $2.06, ÷ 0.6 = $3.4333… for each.
test.each(['edge', 'area', 'volume'] as const)('a range by cost is that of the same rate, by %s', per => {
  const rate = (2.06 / 0.6).toFixed(9)
  const each = { slug: 'each', per, laborHours: hours('0.02') }
  const byRate = spreadOf(tableWith({ ...each, pricedBy: 'rate', lower: rate, upper: rate }), 'each')
  const byCost = spreadOf(tableWith({ ...each, materialCost: '1.30' }), 'each')
  expect(Math.abs(byCost.low - byRate.low)).toBeLessThanOrEqual(2)
  expect(Math.abs(byCost.high - byRate.high)).toBeLessThanOrEqual(2)
})

test('a range by whole pieces comes to the same where a piece is next to nothing', () => {
  const each = { slug: 'each', per: 'edge' as const, laborHours: hours('0.02') }
  const packs = [piece({ length: '0.001', stakes: '0', prices: flat('0.0013') })]
  const byCost = spreadOf(tableWith({ ...each, materialCost: '1.30' }), 'each')
  const byPieces = spreadOf(tableWith({ ...each, packs }), 'each')
  expect(Math.abs(byPieces.low - byCost.low)).toBeLessThanOrEqual(2)
  expect(Math.abs(byPieces.high - byCost.high)).toBeLessThanOrEqual(2)
})

test('it makes no job cheaper, whatever the least hours, and likely is inside', () => {
  fc.assert(
    fc.property(anyBeds, fc.constantFrom('0', '6', '40'), (beds, least) => {
      const plain = tableWith(edging)
      const table = { ...plain, labor: { ...plain.labor, least } }
      const price = (extras: string[]) => Number(workOutPrice(jobOf(beds, table, extras), table).total)
      expect(price(['metal-edging'])).toBeGreaterThanOrEqual(price([]))
      const { low, likely, high } = workOutBallpark(jobOf(beds, table, ['metal-edging']), table).range
      expect(Number(likely)).toBeGreaterThanOrEqual(Number(low))
      expect(Number(likely)).toBeLessThanOrEqual(Number(high))
    }),
    { numRuns: 20 },
  )
})

test('it needs the wage to be known', () => {
  const table = tableWith(edging)
  const without = { ...table, people: [], costs: { ...table.costs, wage: null } }
  const issues = rateTableSchema.safeParse(without).error?.issues ?? []
  expect(issues.map(({ path, message }) => [path.join('.'), message])).toContainEqual([
    'extras.0.pricedBy',
    'needs your wage per labor hour',
  ])
})
