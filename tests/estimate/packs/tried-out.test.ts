import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { optionsFor } from '../../../src/estimate/packs/choices.ts'
import { moneyIn, tripCost } from '../../../src/estimate/packs/money.ts'
import { finderOf } from '../../../src/estimate/packs/together.ts'
import { tripsOver } from '../../../src/estimate/packs/trips.ts'
import type { RateTable } from '../../../src/estimate/table/rate-table.ts'
import { anyFetching, anyPacks, anyWork } from './generated.ts'
import { bought, tableOf } from './made-together.ts'
import { leastByTrying } from './tried-out.ts'

const anyTable = (most: number) =>
  fc
    .tuple(
      fc.array(anyPacks, { minLength: 1, maxLength: most }),
      anyWork,
      anyFetching,
      fc.array(fc.constantFrom(null, '300', '1000', '3120'), { minLength: most, maxLength: most }),
    )
    .map(([packs, work, fetching, wet]) => ({
      count: packs.length,
      table: tableOf(
        packs,
        { ...work, carriers: work.carriers.slice(0, 1), fetching } as Partial<RateTable>,
        wet,
      ),
    }))

const anyNeed = fc.oneof(
  fc.integer({ min: 0, max: 500 }).map(number => number / 100),
  fc.integer({ min: 0, max: 60 }).map(bags => (bags * 2) / 27),
  fc.integer({ min: 0, max: 6 }),
)
const needs = (most: number) => fc.array(anyNeed, { minLength: most, maxLength: most })

function byScenario(needs: number[], table: RateTable) {
  const finishes = table.finishes.slice(0, needs.length)
  const trips = tripsOver(finishes, table)
  const cost = tripCost(table).toNumber()
  const buyers = finishes.map((finish, at) =>
    optionsFor(finish, at, trips, { least: cost / 2, most: cost * 1.5 }, table, moneyIn(table)),
  )
  const find = finderOf(trips, table)
  return (some: number[]) =>
    find(
      some.map((need, index) => buyers[index]!(need)),
      cost,
    ).total
}

describe('against every purchase, tried one by one', () => {
  it.each([
    [1, 300],
    [2, 120],
    [3, 40],
  ])('%s finishes together cost the least there is', (most, numRuns) => {
    fc.assert(
      fc.property(anyTable(most), needs(most), ({ table, count }, all) => {
        const some = all.slice(0, count).map(need => (count > 2 ? need / 2 : need))
        const finishes = table.finishes.slice(0, count)
        const least = leastByTrying(some, finishes, tripCost(table).toNumber(), table)
        expect(bought(some, table).total).toBeCloseTo(least, 6)
        expect(byScenario(some, table)(some)).toBeCloseTo(least, 6)
      }),
      { numRuns },
    )
  })

  it('the same choices are found again for needs near one another, whatever was asked for before', () => {
    fc.assert(
      fc.property(anyTable(1), fc.array(anyNeed, { minLength: 2, maxLength: 30 }), ({ table }, some) => {
        const ask = byScenario([0], table)
        for (const need of some) expect(ask([need])).toBeCloseTo(bought([need], table).total, 6)
      }),
      { numRuns: 200 },
    )
  })
})

it('more of a finish never costs less, however many ride along', () => {
  const grown = fc.tuple(
    fc.nat(5),
    fc.integer({ min: 1, max: 300 }).map(number => number / 100),
  )
  fc.assert(
    fc.property(anyTable(6), needs(6), grown, ({ table, count }, all, [which, more]) => {
      const some = all.slice(0, count)
      const larger = some.with(which % count, some[which % count]! + more)
      expect(bought(larger, table).total).toBeGreaterThanOrEqual(bought(some, table).total - 1e-6)
      const ask = byScenario(some, table)
      expect(ask(larger)).toBeGreaterThanOrEqual(ask(some) - 1e-6)
    }),
    { numRuns: 200 },
  )
})
