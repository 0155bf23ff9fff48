import fc from 'fast-check'
import { expect, it } from 'vitest'
import { ranked, rankedSums } from '../../src/estimate/scenarios/ranked.ts'

it('gives what stands at a rank when all are sorted, also when asked again', () => {
  const values = fc.array(
    fc.oneof(fc.integer({ min: 0, max: 9 }), fc.integer({ min: -1_000_000, max: 1_000_000 })),
    {
      minLength: 1,
      maxLength: 60,
    },
  )
  fc.assert(
    fc.property(values, fc.nat(59), fc.nat(59), (list, one, other) => {
      const sorted = [...list].sort((a, b) => a - b)
      const numbers = Float64Array.from(list)
      for (const rank of [one % list.length, other % list.length])
        expect(ranked(numbers, rank)).toBe(sorted[rank])
    }),
    { numRuns: 500, examples: [[[0, 0, 0], 2, 0]] },
  )
})

it('gives what stands at a rank of sums of which only bounds are known, and works none out twice', () => {
  const one = fc.record({
    known: fc.integer({ min: -50, max: 50 }),
    exact: fc.integer({ min: 0, max: 200 }),
    below: fc.nat(40),
    above: fc.nat(40),
  })
  fc.assert(
    fc.property(fc.array(one, { minLength: 1, maxLength: 60 }), fc.nat(59), fc.nat(59), (all, a, b) => {
      const workedOut: number[] = []
      const bounded = {
        atLeast: Float64Array.from(all, ({ exact, below }) => exact - below),
        atMost: Float64Array.from(all, ({ exact, above }) => exact + above),
        closer(index: number) {
          this.atLeast[index] = all[index]!.exact - Math.floor(all[index]!.below / 2)
        },
        exactAt(index: number) {
          workedOut.push(index)
          return all[index]!.exact
        },
      }
      const sorted = all.map(({ known, exact }) => known + 2 * exact).sort((x, y) => x - y)
      const { at, atLeast, atMost } = rankedSums(
        Float64Array.from(all, ({ known }) => known),
        2,
        bounded,
      )
      const [low, high] = [a % all.length, b % all.length].sort((x, y) => x - y) as [number, number]
      expect(sorted[low]).toBeGreaterThanOrEqual(atLeast(low))
      expect(sorted[high]).toBeLessThanOrEqual(atMost(high))
      expect(at(low)).toBe(sorted[low])
      expect(at(high, low)).toBe(sorted[high])
      expect(new Set(workedOut).size).toBe(workedOut.length)
    }),
    { numRuns: 500 },
  )
})

it('leaves alone what can’t stand at the rank', () => {
  const exactAt = (index: number) => {
    if (index !== 1) throw new Error('not asked for')
    return 10
  }
  const bounded = {
    atLeast: Float64Array.of(1, 9, 20),
    atMost: Float64Array.of(2, 12, 30),
    closer: () => {},
    exactAt,
  }
  expect(rankedSums(new Float64Array(3), 1, bounded).at(1)).toBe(10)
})
