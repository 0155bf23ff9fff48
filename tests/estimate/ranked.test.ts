import fc from 'fast-check'
import { expect, it } from 'vitest'
import { ranked } from '../../src/estimate/scenarios/ranked.ts'

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
