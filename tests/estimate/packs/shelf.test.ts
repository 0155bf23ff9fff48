import fc from 'fast-check'
import { expect, it } from 'vitest'
import { optionsFor } from '../../../src/estimate/packs/choices.ts'
import { moneyIn } from '../../../src/estimate/packs/money.ts'
import { type Column, leanestAt, optionsAt } from '../../../src/estimate/packs/shelf.ts'
import { tripsOver } from '../../../src/estimate/packs/trips.ts'
import type { RateTable } from '../../../src/estimate/table/rate-table.ts'
import { anyBuying, anyFetching } from './generated.ts'
import { bag, tableWith } from './made.ts'

// Far apart and near one another, and now and then none.
const anyNeeds = fc.array(
  fc.oneof(
    fc.integer({ min: -20, max: 3000 }).map(number => number / 100),
    fc.integer({ min: 0, max: 400 }).map(bags => (bags * 2) / 27),
    fc.constantFrom(0.01, 700, 12_345.6),
  ),
  { minLength: 1, maxLength: 60 },
)

const anyTable = fc.tuple(anyBuying, anyFetching).map(([table, fetching]) => ({ ...table, fetching }))

function newBuyer(table: RateTable) {
  const [finish] = table.finishes
  const trips = tripsOver([finish!], table)
  return {
    limits: trips.limits,
    buy: optionsFor(finish!, 0, trips, { least: 20, most: 60 }, table, moneyIn(table)),
  }
}

const goodsAt = (column: Column, point: number) => optionsAt(column, point).rising.map(({ goods }) => goods)

it('has for each need what a shelf has of which nothing else was asked before', () => {
  fc.assert(
    fc.property(anyTable, anyNeeds, fc.constantFrom(1, 1.15), (table, needs, times) => {
      const { buy } = newBuyer(table)
      buy.all(Float64Array.from(needs.toReversed()), times)
      const column = buy.all(Float64Array.from(needs), times)
      for (const [point, need] of needs.entries()) {
        const alone = newBuyer(table).buy(need * times)
        expect(goodsAt(column, point)).toEqual(alone.rising.map(({ goods }) => goods))
        expect(buy(need * times)).toEqual(optionsAt(column, point))
      }
    }),
    { numRuns: 150 },
  )
})

it('tells needs a hair apart from each other, in whatever order they come', () => {
  // A bag is 2 ft³ at 4; a need that is the least bit over takes one more.
  const bags = [3, 1, 4, 15, 9, 2, 6, 5]
  const needs = bags.flatMap(count => [count, count + 0.001, count, count - 0.001, count])
  const { buy } = newBuyer(tableWith([bag()]))
  const column = buy.all(Float64Array.from(needs), 2 / 27)
  expect(needs.map((_, point) => goodsAt(column, point)[0])).toEqual(needs.map(need => 4 * Math.ceil(need)))
})

it('keeps what it gave before when it begins anew', () => {
  const { buy } = newBuyer(tableWith([bag()]))
  const needs = Float64Array.from({ length: 1024 }, (_, index) => 0.013 * (index + 1))
  const before = buy.all(needs, 1)
  const was = Array.from(needs, (_, point) => goodsAt(before, point))
  // More than any shelf has room for.
  for (let turn = 1; turn <= 6; turn++) buy.all(needs, 1 + 31 * turn)
  expect(Array.from(needs, (_, point) => goodsAt(before, point))).toEqual(was)
})

it('finds what is best by each limit where trips needn’t be whole', () => {
  fc.assert(
    fc.property(anyTable, anyNeeds, fc.integer({ min: 20, max: 60 }), (table, needs, each) => {
      const { buy, limits } = newBuyer(table)
      const column = buy.all(Float64Array.from(needs), 1)
      const { shelf, rows } = column
      for (const [point] of needs.entries())
        for (let limit = 0; limit < limits; limit++) {
          const at = leanestAt(shelf, rows[point]!, limit, each)
          const costs = optionsAt(column, point).choices.map(({ goods, uses }) => goods + each * uses[limit]!)
          expect(shelf.figures[at]! + each * shelf.figures[at + limit + 2]!).toBeCloseTo(
            Math.min(...costs),
            9,
          )
        }
    }),
    { numRuns: 150 },
  )
})
