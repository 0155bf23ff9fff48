import { describe, expect, it } from 'vitest'
import { methodOf } from '../../src/estimate/job/methods/all-methods.ts'
import { jobQuantities } from '../../src/estimate/job/quantities.ts'
import { plusFactor } from '../../src/estimate/price/cost-plus.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import { spreadsOf } from '../../src/estimate/scenarios/range.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { rateTableSchema } from '../../src/estimate/table/rate-table-schema.ts'
import { costTable } from './cost-priced.ts'
import { jobOf, testTable, withTiers } from './jobs.ts'
import { bulk } from './packs/made.ts'

const both = (figure: string) => ({ lower: figure, upper: figure })
const yards = (volume: number, finish = 'shredded-wood') => ({
  shape: 'volume',
  sizes: { volume: `${volume} yd` },
  finish,
})

/** Shredded wood by cost: by whole yards at 30, an hour a yd³ at 20, 10 to set up; figures invented. */
function priced(changes: Partial<RateTable> = {}): RateTable {
  const table = testTable({ allowance: '0' })
  return {
    ...table,
    finishes: table.finishes.map(finish =>
      finish.slug === 'shredded-wood'
        ? { ...finish, pricedBy: 'cost', packs: [bulk({ step: '1', prices: [{ from: '0', each: '30' }] })] }
        : finish,
    ),
    labor: { ...table.labor, spread: both('1') },
    costs: { ...table.costs, wage: '20', truckPerJob: '10' },
    costPlus: { by: 'margin', share: '0.50' },
    ...changes,
  }
}

const linesOf = (table: RateTable, ...beds: ReturnType<typeof yards>[]) =>
  workOutPrice(jobOf(beds, table), table).lines.map(({ kind, amount }) => `${kind} ${amount}`)

describe('a finish priced by its cost', () => {
  it('is what is bought and the hours of laying, with the margin on it, and setting up once', () => {
    // 3 yd³ bought at 30 and 2.5 h at 20 are 140: at half margin 280, and 10 are 20.
    expect(linesOf(priced(), yards(2.5))).toEqual(['finish 280.00', 'set-up 20.00'])
    expect(linesOf(priced(), yards(1), yards(1.5))).toEqual(['finish 280.00', 'set-up 20.00'])
  })

  it('has a markup on it instead, where the owner says so', () => {
    const table = priced({ costPlus: { by: 'markup', share: '0.25' } })
    expect(linesOf(table, yards(2.5))).toEqual(['finish 175.00', 'set-up 12.50'])
  })

  it('stands beside finishes at installed rates, without a share in their size of job', () => {
    const tiered = withTiers(priced(), ['2'], [0.5])
    // 1 yd³ of stone at 170; as 2 yd³ at half rates it were 85 and a yd³ of straw at 41.25.
    expect(linesOf(tiered, yards(2.5), yards(1, 'stone'))).toEqual([
      'finish 280.00',
      'finish 170.00',
      'size -43.75',
      'set-up 20.00',
    ])
  })

  it('has no line for setting up where there is none of it in the job', () => {
    expect(linesOf(priced(), yards(1, 'stone'))).toEqual(['finish 170.00'])
  })
})

describe('its lower and its upper price', () => {
  // A told volume of which nothing is known but its own 5 %: two of them with no allowance and no packs.
  const table = priced({ labor: { ...priced().labor, spread: { lower: '0.5', upper: '1.5' } } })
  const exact = {
    ...table,
    finishes: table.finishes.map(finish => ({ ...finish, packs: [], materialCost: '30' })),
  }

  it('come from the lower and the upper hours of every task, all moved alike', () => {
    const job = jobOf([{ shape: 'area', sizes: { area: '1080' }, depth: '3' }], exact)
    const still = {
      ...exact,
      measuring: { ...exact.measuring, tape: { sigma: '0', rho: '0' } },
    }
    const { low, high } = spreadsOf(job, jobQuantities(job, still), still, 1, methodOf(1))()
    // By the first method, to which an area by tape without an error is sure.
    // 10 yd³ at 30 and 10 h at 20 in the middle; nothing varies but where the hours stand, a tenth from either end at
    // a promise of 80 %: .6 and 1.4 h a yd³. (300 + 120) × 2 + 20 and (300 + 280) × 2 + 20.
    expect(low / 100).toBeCloseTo(860, -1)
    expect(high / 100).toBeCloseTo(1180, -1)
  })
})

it.each([
  ['margin', '0', 1],
  ['margin', '0.2', 1.25],
  ['margin', '0.5', 2],
  ['margin', '0.95', 20],
  ['markup', '0', 1],
  ['markup', '0.25', 1.25],
  ['markup', '10', 11],
] as const)('a %s of %s makes of a cost %s times as much', (by, share, times) => {
  expect(plusFactor({ costPlus: { by, share } }).toNumber()).toBeCloseTo(times, 12)
})

describe('the rate table', () => {
  const faults = (table: RateTable) =>
    rateTableSchema.safeParse(table).error?.issues.map(({ path }) => path.join('.')) ?? []

  it('takes finishes priced by cost, and refuses those whose cost isn’t known', () => {
    expect(faults(costTable())).toEqual([])
    const table = priced()
    expect(faults({ ...table, costs: { ...table.costs, wage: null } })).toEqual(['finishes.0.pricedBy'])
    const [first, ...rest] = table.finishes
    expect(faults({ ...table, finishes: [{ ...first!, packs: [] }, ...rest] })).toEqual([
      'finishes.0.pricedBy',
    ])
  })

  it('refuses a margin of nearly all, a pin that is no way to buy, prices that don’t begin at 0', () => {
    const table = priced()
    expect(faults({ ...table, costPlus: { by: 'margin', share: '0.96' } })).toEqual(['costPlus.share'])
    const [first, ...rest] = table.finishes
    const withFirst = (changes: Partial<typeof first>) => ({
      ...table,
      finishes: [{ ...first!, ...changes }, ...rest],
    })
    expect(faults(withFirst({ pinned: 'bulk:delivered' }))).toEqual(['finishes.0.pinned'])
    expect(faults(withFirst({ packs: [bulk({ prices: [{ from: '1', each: '3' }] })] }))).toEqual([
      'finishes.0.packs.0.prices.0.from',
    ])
    expect(faults(withFirst({ packs: [bulk({ collected: false })] }))).toEqual([
      'finishes.0.packs.0.collected',
    ])
    expect(faults(withFirst({ packs: [bulk(), bulk()] }))).toEqual(['finishes.0.packs.1.slug'])
  })
})
