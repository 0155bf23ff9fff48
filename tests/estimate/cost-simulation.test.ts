import { describe, expect, it } from 'vitest'
import type { BedTold } from '../../src/estimate/job/bed.ts'
import { jobQuantities } from '../../src/estimate/job/quantities.ts'
import { priceLines, totalOf } from '../../src/estimate/price/price-lines.ts'
import { spreadsOf } from '../../src/estimate/scenarios/range.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { costTable, jobAway } from './cost-priced.ts'
import { toldBed, withTiers } from './jobs.ts'
import { simulate } from './simulation.ts'

const SCENARIOS = 100_000

/** carry in ft and stairs of each bed; its slowness besides its planting is told again in plain numbers. */
function shareInside(beds: BedTold[], table: RateTable, seed: number, ways: [number, number][]) {
  const told = beds.map((_, index): [number, number] => ways[index] ?? [0, 0])
  const job = jobAway(
    beds,
    told.map(([carry, stairs]) => ({ carry, stairs })),
    table,
  )
  const quantities = jobQuantities(job, table)
  const spread = spreadsOf(job, quantities, table)()
  const likely = totalOf(priceLines(job, quantities, table)).toNumber() * 100
  const [low, high] = [Math.min(spread.low, likely), Math.max(spread.high, likely)]
  // A fifth for each 50 ft beyond the first 50, a twentieth for each stair.
  const slowness = told.map(
    ([carry, stairs]) => (1 + (Math.max(0, carry - 50) / 50) * 0.2) * (1 + stairs * 0.05),
  )
  const counts = new Map<number, number>()
  let inside = 0
  for (const price of simulate(beds, table, SCENARIOS, seed, { slowness })) {
    if (price >= low && price <= high) inside++
    counts.set(price, (counts.get(price) ?? 0) + 1)
  }
  return { inside: inside / SCENARIOS, heaped: Math.max(...counts.values()) > SCENARIOS / 100 }
}

const table = costTable()
const wood = (sizes: Record<string, string>, more: Partial<BedTold> = {}) => toldBed({ sizes, ...more })
const large = { length: '60', width: '12' }
const jobs: [string, BedTold[], [number, number][]?, RateTable?][] = [
  ['bags or bulk, by eye', [wood({ length: '30', width: '10' }, { measuredBy: 'eye', lying: 'unsure' })]],
  ['several loads, by paces', [wood(large, { measuredBy: 'paces', count: 3, lying: 'thin' })]],
  [
    'stone by a cost per volume',
    [wood({ length: '40', width: '8' }, { finish: 'stone', measuredBy: 'eye' })],
  ],
  [
    'two finishes by cost and one at installed rates',
    [
      wood(large, { measuredBy: 'paces', planted: 'half' }),
      wood({ length: '20', width: '10' }, { finish: 'stone', measuredBy: 'eye', lying: 'fair' }),
      wood({ length: '25', width: '10' }, { finish: 'compost', measuredBy: 'eye' }),
    ],
  ],
  [
    'far beds and near ones, some planted full',
    [
      wood({ length: '20', width: '10' }, { measuredBy: 'eye', planted: 'full' }),
      wood({ length: '35', width: '8' }, { measuredBy: 'tape' }),
      wood({ length: '30', width: '10' }, { finish: 'stone', measuredBy: 'eye' }),
      wood({ length: '30', width: '6' }, { finish: 'stone', measuredBy: 'tape', planted: 'half' }),
    ],
    [
      [250, 10],
      [0, 0],
      [400, 0],
      [80, 3],
    ],
  ],
  [
    'tiers beside a finish priced by cost',
    [
      wood({ length: '40', width: '9' }, { finish: 'compost', measuredBy: 'eye' }),
      wood({ length: '40', width: '9' }, { measuredBy: 'eye' }),
    ],
    [],
    withTiers(table, ['2', '6'], [0.85, 0.7]),
  ],
  [
    'a markup, and a promise of 90 %',
    [wood({ length: '50', width: '10' }, { finish: 'stone', measuredBy: 'paces', lying: 'fair' })],
    [],
    costTable({ costPlus: { by: 'markup', share: '0.5' }, promise: '0.90' }),
  ],
]

describe('against 100,000 independent draws with an independent price by cost, the promise holds', () => {
  it.each(jobs.map(([name, ...rest], index) => ({ name, rest, index })))('$name', ({ rest, index }) => {
    const [beds, ways = [], priced = table] = rest
    const { inside, heaped } = shareInside(beds, priced, 700 + index, ways)
    const promise = Number(priced.promise)
    expect(inside).toBeGreaterThanOrEqual(promise - 0.015)
    if (!heaped) expect(inside).toBeLessThanOrEqual(promise + 0.015)
  })
})
