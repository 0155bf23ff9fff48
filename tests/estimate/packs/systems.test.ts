import fc from 'fast-check'
import { expect, it } from 'vitest'
import { workOutBallpark } from '../../../src/estimate/ballpark/ballpark.ts'
import { workOutPrice } from '../../../src/estimate/price/firm-price.ts'
import type { Pack } from '../../../src/estimate/table/pack.ts'
import type { RateTable } from '../../../src/estimate/table/rate-table.ts'
import { Decimal } from '../../../src/lib/decimal.ts'
import { jobOf, testTable } from '../jobs.ts'
import { bag, bale, weighed } from './made.ts'

// NIST SP 811: 1 ft = 0.3048 m, 1 lb = 0.453 592 37 kg; so 1 ft² = 0.092 903 04 m², 1 ft³ = 0.028 316 846 592 m³ and
// 1 yd³ = 0.764 554 857 984 m³. A short ton is 2,000 lb.
const yard = new Decimal('0.764554857984')
const pound = new Decimal('0.45359237')

const bagUs = bag({
  holds: '2',
  prices: [
    { from: '0', each: '4.20' },
    { from: '30', each: '3.50' },
  ],
})
const baleUs = bale({ covers: '20', deep: '3' })
const tonUs = weighed({ density: '2600', step: '0.5', prices: [{ from: '0', each: '45.3592370' }] })

// The same bag, bale and heap told in metres. A ton is sold in other lumps than a tonne, so a step of half a short ton
// and its price are told as what they are in tonnes.
const bagMetric: Pack = { ...bagUs, holds: '0.056633694' }
const baleMetric: Pack = { ...baleUs, covers: '1.8580608', deep: '7.62' } as Pack
const tonMetric: Pack = {
  ...tonUs,
  density: pound.times(2600).div(yard).toFixed(),
  step: '0.453592370',
  prices: [{ from: '0', each: '50' }],
} as Pack

function costed(table: RateTable, packs: Pack[], hoursPerBulk: Decimal): RateTable {
  const hours = { lower: hoursPerBulk.times('0.8').toFixed(), upper: hoursPerBulk.times('1.2').toFixed() }
  const finishes = table.finishes.map(finish => ({
    ...finish,
    pricedBy: 'cost' as const,
    packs,
    densityWet: null,
  }))
  return {
    ...table,
    finishes,
    step: '0.01',
    labor: { ...table.labor, spread: hours },
    costs: { ...table.costs, wage: '30' },
  }
}

it.each<[string, Pack, Pack]>([
  ['a bag of 2 ft³', bagUs, bagMetric],
  ['a bale of 20 ft² at 3 in', baleUs, baleMetric],
  ['half a short ton at 2,600 lb a yd³', tonUs, tonMetric],
])('%s comes to the same units, cost and range in both systems', (_, packUs, packMetric) => {
  const us = costed(testTable(), [packUs], new Decimal(1))
  const metric = costed(testTable({}, 'metric'), [packMetric], asBulk(yard))
  const side = fc.integer({ min: 20, max: 600 }).map(tenths => (tenths / 10).toFixed(1))
  fc.assert(
    fc.property(side, side, fc.constantFrom('tape', 'eye'), (length, width, measuredBy) => {
      const bed = { sizes: { length: `${length} ft`, width: `${width} ft` }, depth: '3 in', measuredBy }
      const [here, there] = [
        [us, jobOf([bed], us)],
        [metric, jobOf([bed], metric)],
      ] as const
      const [one, other] = [workOutPrice(here[1], here[0]), workOutPrice(there[1], there[0])]
      // A bag's contents are told to nine decimals, the last one up: so twenty bags' worth are twenty in both.
      expect(other.costs!.material).toBe(one.costs!.material)
      expect(Number(other.total)).toBeCloseTo(Number(one.total), 1)
      const ranges = [here, there].map(([table, job]) => workOutBallpark(job, table).range)
      expect(Number(ranges[1]!.low)).toBeCloseTo(Number(ranges[0]!.low), 1)
      expect(Number(ranges[1]!.high)).toBeCloseTo(Number(ranges[0]!.high), 1)
    }),
    { numRuns: 40 },
  )
})

// Hours a yd³ as hours a m³.
function asBulk(perYard: Decimal): Decimal {
  return new Decimal(1).div(perYard)
}
