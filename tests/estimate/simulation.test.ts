import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { BedTold } from '../../src/estimate/job/bed.ts'
import { jobQuantities } from '../../src/estimate/job/quantities.ts'
import { priceLines, totalOf } from '../../src/estimate/price/price-lines.ts'
import { spreadsOf } from '../../src/estimate/scenarios/range.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { anyBed, anyVolume } from './generated.ts'
import { jobOf, testTable, toldBed, withTiers } from './jobs.ts'
import { simulate } from './simulation.ts'

const SCENARIOS = 100_000

/** The share of simulated prices inside the range before its step, and whether one price alone holds over 1 %. */
function shareInside(beds: BedTold[], table: RateTable, seed: number) {
  const job = jobOf(beds, table)
  const quantities = jobQuantities(job, table)
  const told = spreadsOf(job, quantities, table)()
  const likely = totalOf(priceLines(job, quantities, table)).toNumber() * 100
  const [low, high] = [Math.min(told.low, likely), Math.max(told.high, likely)]
  const counts = new Map<number, number>()
  let inside = 0
  for (const price of simulate(beds, table, SCENARIOS, seed)) {
    if (price >= low && price <= high) inside++
    counts.set(price, (counts.get(price) ?? 0) + 1)
  }
  return { inside: inside / SCENARIOS, heaped: Math.max(...counts.values()) > SCENARIOS / 100 }
}

function holds(beds: BedTold[], table: RateTable, seed: number): void {
  const { inside, heaped } = shareInside(beds, table, seed)
  const promise = Number(table.promise)
  expect(inside).toBeGreaterThanOrEqual(promise - 0.015)
  if (!heaped) expect(inside).toBeLessThanOrEqual(promise + 0.015)
}

const table = testTable()
const large = fc.array(fc.oneof({ weight: 9, arbitrary: anyBed }, { weight: 1, arbitrary: anyVolume }), {
  minLength: 1,
  maxLength: 6,
})
const jobs = fc.sample(large, { seed: 20_260_301, numRuns: 10 })

describe('against 100,000 independent draws that redraw every size, the promise holds', () => {
  it.each(jobs.map((beds, index) => ({ index, beds })))('for generated job $index', ({ index, beds }) => {
    holds(beds, table, 100 + index)
  })

  it.each(jobs.slice(0, 3).map((beds, index) => ({ index, beds })))(
    'with tiers and a minimum, job $index',
    ({ index, beds }) => {
      holds(beds, withTiers({ ...table, minimumCharge: '90' }, ['2', '5'], [0.85, 0.7]), 200 + index)
    },
  )

  it.each(['0.50', '0.95'])('for a promise of %s', promise => {
    holds(jobs[5]!, { ...table, promise }, 300)
  })

  it.each<[string, BedTold[]]>([
    ['one bed by eye', [toldBed({ measuredBy: 'eye', lying: 'unsure' })]],
    ['one ring by eye', [toldBed({ shape: 'ring', sizes: { outer: '8', inner: '4' }, measuredBy: 'eye' })]],
    ['forty beds by paces', [toldBed({ measuredBy: 'paces', count: 40, lying: 'thin' })]],
    [
      'a guess among tape',
      [toldBed(), toldBed({ sizes: { length: 'about 30', width: 'about 8' }, finish: 'stone' })],
    ],
  ])('for %s', (_, beds) => {
    holds(beds, table, 400)
  })

  it.each<[string, Partial<BedTold>]>([
    ['three trees cut out', { cutOuts: '3 of 2.5 ft across; 4 x 3 ft', measuredBy: 'eye' }],
    ['half of it cut out', { cutOuts: '12.5 x 4 ft', measuredBy: 'eye' }],
    ['a guess cut out of what was taped', { cutOuts: 'about 8 x 4 ft' }],
    ['a new bed where nobody knows what lies', { work: 'new', lying: 'unsure', measuredBy: 'eye' }],
    ['a layer not known', { lying: 'unsure', measuredBy: 'eye' }],
    [
      'widths at uneven distances',
      {
        shape: 'uneven-offsets',
        sizes: { spacings: '5 5 3 8 8 2', offsets: '2 6 4 0 9 7 1' },
        measuredBy: 'eye',
      },
    ],
    [
      'widths along a line',
      { shape: 'offsets', sizes: { spacing: '5', offsets: '0 6 4 8' }, measuredBy: 'eye' },
    ],
  ])('for a bed with %s', (_, bed) => {
    holds([toldBed(bed)], table, 420)
  })

  // The flattest triangle that is taken.
  it.each(['tape', 'paces'])('for a flat triangle by its sides, by %s', measuredBy => {
    holds([toldBed({ shape: 'sides', sizes: { a: '10', b: '10', c: '17' }, measuredBy })], table, 450)
  })

  it('except for a flat triangle by eye, which falls short by less than 5 points', () => {
    const flat = toldBed({ shape: 'sides', sizes: { a: '10', b: '10', c: '17' }, measuredBy: 'eye' })
    const { inside } = shareInside([flat], table, 460)
    expect(inside).toBeGreaterThan(0.75)
    expect(inside).toBeLessThan(0.785)
  })

  // The most cut out that is taken by eye.
  it('except for a bed by eye with more than half cut out, which falls short by less than 5 points', () => {
    const { inside } = shareInside([toldBed({ cutOuts: '13.5 x 4 ft', measuredBy: 'eye' })], table, 470)
    expect(inside).toBeGreaterThan(0.75)
    expect(inside).toBeLessThan(0.785)
  })

  // A bed's own error stops at 0.3, so that no bed can make a job cheaper; a narrow ring by eye is less sure than that.
  it('except for a narrow ring by eye, which falls short by less than 5 points', () => {
    const ring = toldBed({ shape: 'ring', sizes: { outer: '8', inner: '5' }, measuredBy: 'eye' })
    const { inside } = shareInside([ring], table, 500)
    expect(inside).toBeGreaterThan(0.75)
    expect(inside).toBeLessThan(0.785)
  })
})
