import fc from 'fast-check'
import { expect, it } from 'vitest'
import { points } from '../../src/estimate/scenarios/points.ts'
import { scenarioBuying } from '../../src/estimate/scenarios/scenario-buying.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { anyPacks, anyWork } from './packs/generated.ts'
import { tableOf } from './packs/made-together.ts'

const anyTable = fc
  .tuple(
    fc.array(anyPacks, { minLength: 1, maxLength: 6 }),
    anyWork,
    fc.record({ together: fc.constantFrom('all', 'apart'), mixed: fc.boolean() }),
    fc.array(fc.constantFrom(null, '300', '1000', '3120'), { minLength: 6, maxLength: 6 }),
  )
  .map(([packs, work, fetching, wet]) => ({
    count: packs.length,
    table: tableOf(packs, { ...work, fetching } as Partial<RateTable>, wet),
  }))

const needs = fc.array(fc.integer({ min: 0, max: 600 }), { minLength: 6, maxLength: 6 })

function ridingBy({ table, count }: { table: RateTable; count: number }, some: number[]) {
  const buying = scenarioBuying(table.finishes.slice(0, count), table, points())
  const columns = some.slice(0, count).map((need, index) => {
    const volumes = points().own[index]!.map(z => Math.max(0, (need / 100) * (1 + z / 4)))
    return buying.optionsOf(index, volumes)!
  })
  return buying.riding(columns)
}

it('what riding together costs lies between its bounds, also between closer ones', () => {
  fc.assert(
    fc.property(anyTable, needs, (table, some) => {
      const { atLeast, atMost, closer, exactAt } = ridingBy(table, some)
      for (let point = 0; point < 1024; point += 37) {
        const exact = exactAt(point)
        const [least, most] = [atLeast[point]!, atMost[point]!]
        closer(point)
        for (const lower of [least, atLeast[point]!]) expect(exact).toBeGreaterThanOrEqual(lower - 1e-9)
        for (const upper of [most, atMost[point]!]) expect(exact).toBeLessThanOrEqual(upper + 1e-9)
        expect(atLeast[point]).toBeGreaterThanOrEqual(least)
        expect(atMost[point]).toBeLessThanOrEqual(most)
      }
    }),
    { numRuns: 100 },
  )
})

it('where loose ones are fetched apart, closer bounds are what the search finds', () => {
  // A large truck: with very many trips bounds stay apart.
  const truck = { name: { en: 'truck', es: 'camión' }, volume: '8', payload: '8000' }
  const apart = anyTable.map(({ table, count }) => ({
    count,
    table: { ...table, carriers: [truck], fetching: { ...table.fetching, together: 'apart' as const } },
  }))
  fc.assert(
    fc.property(apart, needs, (table, some) => {
      const { atLeast, atMost, closer, exactAt } = ridingBy(table, some)
      for (let point = 5; point < 1024; point += 37) {
        const exact = exactAt(point)
        closer(point)
        expect(atLeast[point]).toBeCloseTo(exact, 8)
        expect(atMost[point]).toBeCloseTo(exact, 8)
      }
    }),
    { numRuns: 100 },
  )
})
