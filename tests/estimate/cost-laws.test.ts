import fc from 'fast-check'
import { expect, it } from 'vitest'
import { workOutBallpark } from '../../src/estimate/ballpark/ballpark.ts'
import type { BedTold, Job } from '../../src/estimate/job/bed.ts'
import { jobQuantities } from '../../src/estimate/job/quantities.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import { priceLines, totalOf } from '../../src/estimate/price/price-lines.ts'
import { shownRange, spreadsOf } from '../../src/estimate/scenarios/range.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { Decimal } from '../../src/lib/decimal.ts'
import { anyCostTable, anyWay, costTable, jobAway } from './cost-priced.ts'
import { anyBed, anyBeds, anyVolume, changeSizes } from './generated.ts'
import { toldBed } from './jobs.ts'

const extras = fc.subarray(['edging', 'weeding'])
const ways = fc.array(anyWay, { minLength: 11, maxLength: 11 })
const runs = { numRuns: 60 }

function rangeOf(job: Job, table: RateTable) {
  const quantities = jobQuantities(job, table)
  const likely = totalOf(priceLines(job, quantities, table))
  const { low, high } = shownRange(spreadsOf(job, quantities, table)(), likely, table)
  return { low: Number(low), likely: likely.toNumber(), high: Number(high) }
}

// Half a cent for the line of every finish, as with installed rates, and half a cent for the scenario's own rounding.
function expectNotLess(after: ReturnType<typeof rangeOf>, before: ReturnType<typeof rangeOf>): void {
  for (const which of ['low', 'likely', 'high'] as const)
    expect(after[which], which).toBeGreaterThanOrEqual(before[which] - 0.03)
}

function expectSound(numbers: (number | string | null)[]): void {
  for (const number of numbers) if (number !== null) expect(Number.isFinite(Number(number))).toBe(true)
}

it('one more bed never makes the price or the range fall', () => {
  fc.assert(
    fc.property(
      anyBeds,
      fc.oneof(anyBed, anyVolume),
      ways,
      anyCostTable,
      extras,
      (beds, more, way, table, slugs) => {
        const before = jobAway(beds, way, table, slugs)
        const last = jobAway([more], [way[10]!], table).beds[0]!
        expectNotLess(rangeOf({ ...before, beds: [...before.beds, last] }, table), rangeOf(before, table))
      },
    ),
    runs,
  )
})

it('a larger bed never makes the price or the range fall', () => {
  const grown = fc.integer({ min: 101, max: 300 })
  fc.assert(
    fc.property(
      anyBeds,
      fc.nat(9),
      grown,
      ways,
      anyCostTable,
      extras,
      (beds, which, percent, way, table, slugs) => {
        const larger = beds.map((bed, index): BedTold => {
          if (index !== which % beds.length) return bed
          const larger = (figure: string) => new Decimal(figure).times(percent).div(100).toFixed()
          return { ...bed, sizes: changeSizes(bed.sizes, larger) }
        })
        expectNotLess(
          rangeOf(jobAway(larger, way, table, slugs), table),
          rangeOf(jobAway(beds, way, table, slugs), table),
        )
      },
    ),
    runs,
  )
})

it('the order of the beds never matters, to the cent', () => {
  const shuffled = fc
    .tuple(anyBeds, ways)
    .map(([beds, way]) => beds.map((bed, index) => ({ bed, way: way[index]! })))
    .chain(beds => fc.tuple(fc.constant(beds), fc.shuffledSubarray(beds, { minLength: beds.length })))
  fc.assert(
    fc.property(shuffled, anyCostTable, extras, ([beds, others], table, slugs) => {
      const [one, other] = [beds, others].map(list => {
        const job = jobAway(
          list.map(({ bed }) => bed),
          list.map(({ way }) => way),
          table,
          slugs,
        )
        const { lines, total, cost, laborHours } = workOutPrice(job, table)
        return { ...rangeOf(job, table), lines, total, cost, laborHours }
      })
      expect(other).toEqual(one)
    }),
    runs,
  )
})

it('likely is inside the range and is the firm price, whose lines sum to it; costs sum to the cost', () => {
  fc.assert(
    fc.property(anyBeds, ways, anyCostTable, extras, (beds, way, table, slugs) => {
      const job = jobAway(beds, way, table, slugs)
      const price = workOutPrice(job, table)
      const { range } = workOutBallpark(job, table)
      expect(range.likely).toBe(price.total)
      expect(Number(range.low)).toBeLessThanOrEqual(Number(range.likely))
      expect(Number(range.likely)).toBeLessThanOrEqual(Number(range.high))
      const inCents = (amount: string) => Math.round(Number(amount) * 100)
      const sum = price.lines.reduce((all, { amount }) => all + inCents(amount), 0)
      expect(sum).toBe(inCents(price.total))
      expectSound([price.total, price.cost, price.margin, price.payPerLaborHour, range.low, range.high])
      if (price.costs) {
        const { total, ...pieces } = price.costs
        expect(Object.values(pieces).reduce((all, piece) => all + inCents(piece), 0)).toBe(inCents(total))
      }
      const hours = price.laborHours.reduce((all, task) => all + inCents(task.hours), 0)
      expect(hours).toBe(inCents(price.laborHoursTotal))
    }),
    runs,
  )
})

// The slow bed may be much larger than told while the quick one, by tape, is as told: the hours of each are its own.
it('a quick bed added to a slow one never makes the range fall', () => {
  const table = costTable({ step: '0.01' })
  const stone = table.finishes.map(finish => ({ ...finish, materialCost: '1' }))
  const cheap = { ...table, finishes: stone }
  const slow = toldBed({
    finish: 'stone',
    measuredBy: 'eye',
    planted: 'full',
    sizes: { length: '40', width: '10' },
  })
  const before = jobAway([slow], [{ carry: 400, stairs: 12 }], cheap)
  for (const width of ['2', '5', '10', '20']) {
    const quick = jobAway(
      [toldBed({ finish: 'stone', sizes: { length: '10', width } })],
      [{ carry: 0, stairs: 0 }],
      cheap,
    )
    expectNotLess(
      rangeOf({ ...before, beds: [...before.beds, ...quick.beds] }, cheap),
      rangeOf(before, cheap),
    )
  }
})
