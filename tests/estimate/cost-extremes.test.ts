import fc from 'fast-check'
import { expect, it } from 'vitest'
import { workOutBallpark } from '../../src/estimate/ballpark/ballpark.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import type { Pack } from '../../src/estimate/table/pack.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { rateTableSchema } from '../../src/estimate/table/rate-table-schema.ts'
import { costTable } from './cost-priced.ts'
import { anyBeds } from './generated.ts'
import { jobOf } from './jobs.ts'
import { bag, bale, bulk, weighed } from './packs/made.ts'
import { taxOf } from './taxes.ts'

// The least and the greatest figures that a rate table takes, and some between.
const aboveZero = fc.constantFrom('0.000000001', '0.01', '1', '7.5', '999999999')
const figure = fc.oneof(fc.constant('0'), aboveZero)
const bought = fc.record({
  prices: fc.constantFrom(
    ...['0', '0.000000001', '3', '999999999'].map(each => [
      { from: '0', each },
      { from: '0.000000001', each: '2' },
      { from: '999999999', each: '0' },
    ]),
  ),
  least: figure,
  step: aboveZero,
  delivered: fc.option(fc.record({ fee: figure, freeFrom: fc.option(figure, { nil: null }) }), { nil: null }),
})
const pack: fc.Arbitrary<Pack> = fc.oneof(
  fc.tuple(bought, aboveZero).map(([how, holds]) => bag({ ...how, holds })),
  fc.tuple(bought, aboveZero, aboveZero).map(([how, covers, deep]) => bale({ ...how, covers, deep })),
  bought.map(how => bulk(how)),
  fc.tuple(bought, aboveZero).map(([how, density]) => weighed({ ...how, density })),
)
const tables: fc.Arbitrary<RateTable> = fc
  .record({
    pack,
    density: fc.option(aboveZero, { nil: null }),
    volume: aboveZero,
    payload: fc.option(aboveZero, { nil: null }),
    hours: figure,
    money: figure,
    share: fc.constantFrom('0', '0.95'),
    rate: fc.constantFrom('0', '1'),
  })
  .map(({ pack, density, volume, payload, hours, money, share, rate }) => {
    const table = costTable({
      costPlus: { by: 'margin', share },
      tax: taxOf({ rate, inRanges: true, onPurchases: rate }),
    })
    const both = { lower: '0', upper: hours }
    return {
      ...table,
      carriers: [{ name: { en: 'truck', es: 'camión' }, volume, payload }],
      labor: {
        ...table.labor,
        spread: both,
        trip: both,
        setUp: both,
        least: hours.length > 4 ? '1000' : hours,
        drive: Number(hours) > 24 ? '24' : hours,
      },
      costs: {
        wage: money,
        burden: '5',
        overheadPerLaborHour: money,
        truckPerJob: money,
        truckPerTrip: money,
        truckBy: 'day',
        truckEach: money,
        overheadShare: share,
      },
      finishes: table.finishes.map(finish => ({
        ...finish,
        pricedBy: 'cost' as const,
        packs: [pack],
        densityWet: density,
      })),
    }
  })

it('the least and the greatest figures that a rate table takes never crash it nor give what is no number', () => {
  fc.assert(
    fc.property(anyBeds, tables, (beds, table) => {
      expect(rateTableSchema.safeParse(table).error?.issues).toBeUndefined()
      const job = jobOf(beds, table)
      const { total, cost, margin, payPerLaborHour, laborHoursTotal } = workOutPrice(job, table)
      // What would narrow it is two ranges more for each bed.
      const { low, likely, high } = workOutBallpark(job, table, { narrower: beds.length < 4 }).range
      for (const text of [
        total,
        cost!,
        margin ?? '0.00',
        payPerLaborHour ?? '0.00',
        laborHoursTotal,
        low,
        likely,
        high,
      ])
        expect(text).toMatch(/^-?\d+\.\d{2,4}$/)
      expect(Number(low)).toBeLessThanOrEqual(Number(likely))
      expect(Number(likely)).toBeLessThanOrEqual(Number(high))
    }),
    { numRuns: 80 },
  )
})
