import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { workOutBallpark } from '../../src/estimate/ballpark/ballpark.ts'
import type { BedTold } from '../../src/estimate/job/bed.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import type { Finish, RateTable } from '../../src/estimate/table/rate-table.ts'
import { rateTableSchema } from '../../src/estimate/table/rate-table-schema.ts'
import { worksheetOf } from '../../src/estimate/worksheet/worksheet.ts'
import { jobOf, testTable, withTiers } from './jobs.ts'

const both = (figure: string) => ({ lower: figure, upper: figure })

/** A table in which a finish is sold so; its figures are invented where no source is named. */
function sold(slug: string, changes: Partial<Finish>, table = testTable()): RateTable {
  const finishes = table.finishes.map(one => (one.slug === slug ? { ...one, ...changes } : one))
  return { ...table, finishes }
}

// LSU AgCenter column, 2002-12-01, and UF/IFAS Miami-Dade: a bale covers 18 to 20 ft² at 3 in.
const bales = (covers: string, changes: Partial<Finish> = {}) =>
  sold('pine-straw', {
    saleUnit: 'bale',
    ratesPer: 'sold',
    baleCovers: covers,
    soldDepth: '3',
    rates: [{ lower: '12', upper: '16' }],
    ...changes,
  })
// CalRecycle: gravel 2,600 lb a cubic yard, which is 1.3 short tons; so 124.6 ft² a ton at 2 in.
const tons = (changes: Partial<Finish> = {}) =>
  sold('stone', {
    saleUnit: 'ton',
    ratesPer: 'sold',
    soldDensity: '2600',
    rates: [{ lower: '130', upper: '150' }],
    ...changes,
  })

const straw: Partial<BedTold> = { sizes: { length: '30', width: '20' }, finish: 'pine-straw', depth: '3' }
const stone: Partial<BedTold> = { sizes: { length: '60', width: '27' }, finish: 'stone', depth: '2' }

describe('straw by the bale', () => {
  it('is as many bales as a bale covers, priced by the bale', () => {
    // 20 × 30 ft at 3 in: 600 ft² are 30 bales at 20 ft² a bale; at 14 they are 420.
    const table = bales('20')
    expect(workOutPrice(jobOf([straw], table), table).lines).toMatchObject([
      { quantity: { value: '30.0000', unit: 'bale' }, rate: '14.00', amount: '420.00' },
    ])
    // At 18 ft² a bale 33 1/3 bales (printed: 34 whole ones): 466.67.
    const other = bales('18')
    expect(workOutPrice(jobOf([straw], other), other).lines).toMatchObject([
      { quantity: { value: '33.3333', unit: 'bale' }, amount: '466.67' },
    ])
  })

  it('takes half as many at half the depth', () => {
    const table = bales('20')
    const { lines, toOrder } = workOutPrice(jobOf([{ ...straw, depth: '1.5' }], table), table)
    expect(lines[0]).toMatchObject({ quantity: { value: '15.0000', unit: 'bale' }, amount: '210.00' })
    // With 5 % for settling and loss.
    expect(toOrder).toEqual([{ finish: 'pine-straw', amount: { value: '15.7500', unit: 'bale' } }])
  })

  it('tells on the worksheet what a bale is and how many there are', () => {
    const table = bales('20')
    const { price, buying, labor } = worksheetOf(jobOf([straw], table), table)
    expect(price[0]).toBe(
      'Pine straw (20 ft² at 3 in a bale): 30 bales × $14.00, halfway between $12.00 and $16.00 = $420.00',
    )
    expect(buying[0]!.steps[0]).toBe(
      'To order: 150 ft³ + 5% for settling and waste = 157.5 ft³; ÷ 5 ft³ a bale = 31.5 bales',
    )
    expect(labor[0]).toMatch(/^Spreading: 30 bales \(5\.56 yd³\) × 0\.75 h/)
  })

  it('may have its rates per cubic yard: the price stays, and the amount is told in bales', () => {
    const plain = testTable()
    const table = bales('20', { ratesPer: 'volume', rates: [{ lower: '70', upper: '95' }] })
    const [line] = workOutPrice(jobOf([straw], table), table).lines
    const [before] = workOutPrice(jobOf([straw], plain), plain).lines
    // 150 ft³ ÷ 27 × 82.50 = 458.33; a bale at 82.50 × 5 ÷ 27 has no end in cents.
    expect(before).toMatchObject({ quantity: { unit: 'yd3' }, amount: '458.33' })
    expect(line).toMatchObject({ quantity: { value: '30.0000', unit: 'bale' }, rate: null, amount: '458.33' })
    expect(worksheetOf(jobOf([straw], table), table).price[0]).toMatch(/: 30 bales × 0\.19 yd³ × \$82\.50/)
  })
})

describe('stone by the ton', () => {
  it('is converted by its density, with the figure shown', () => {
    // 27 × 60 ft at 2 in are 270 ft³, 10 yd³, 13 tons; at 140 they are 1,820.
    const table = tons()
    const job = jobOf([stone], table)
    expect(workOutPrice(job, table).lines).toMatchObject([
      { quantity: { value: '13.0000', unit: 'ton' }, rate: '140.00', amount: '1820.00' },
    ])
    const { price, buying } = worksheetOf(job, table)
    expect(price[0]).toMatch(/^Stone \(2,600 lb per yd³\): 13 tons × \$140\.00/)
    expect(buying[0]!.steps[0]).toMatch(/; ÷ 27 × 2,600 lb ÷ 2,000 lb = 13\.65 tons$/)
  })

  it('covers 124.6 ft² a ton at 2 in', () => {
    const table = tons()
    const bed = { shape: 'area', sizes: { area: '124.6' }, finish: 'stone', depth: '2' }
    const [line] = workOutPrice(jobOf([bed], table), table).lines
    expect(Number(line!.quantity!.value)).toBeCloseTo(1, 3)
  })

  it('is by tonnes in metric', () => {
    // 10 × 6 m at 5 cm are 3 m³; at 1,500 kg 4.5 t.
    const table = sold(
      'stone',
      { saleUnit: 'ton', ratesPer: 'sold', soldDensity: '1500', rates: [both('120')] },
      testTable({}, 'metric'),
    )
    const bed = { sizes: { length: '10', width: '6' }, finish: 'stone', depth: '5' }
    expect(workOutPrice(jobOf([bed], table), table).lines).toMatchObject([
      { quantity: { value: '4.5000', unit: 'tonne' }, amount: '540.00' },
    ])
  })
})

it('what is sold by the square foot at a depth counts half at half of it', () => {
  const table = sold('stone', { saleUnit: 'area', ratesPer: 'sold', soldDepth: '2', rates: [both('1.10')] })
  const lineOf = (depth: string) => workOutPrice(jobOf([{ ...stone, depth }], table), table).lines[0]
  // 1,620 ft² at 2 in.
  expect(lineOf('2')).toMatchObject({ quantity: { value: '1620.0000', unit: 'ft2' }, amount: '1782.00' })
  expect(lineOf('1')).toMatchObject({ quantity: { value: '810.0000', unit: 'ft2' }, amount: '891.00' })
})

describe('whatever it is sold in', () => {
  const unitOf = { bale: '5', ton: '20.769230769230769', area: '0.25' } as const
  const anySold = fc.constantFrom<keyof typeof unitOf>('bale', 'ton', 'area')

  it('a rate for the unit gives the price and the range of the same rate per cubic yard', () => {
    fc.assert(
      fc.property(
        anySold,
        fc.integer({ min: 3, max: 60 }),
        fc.integer({ min: 2, max: 20 }),
        fc.integer({ min: 100, max: 9000 }),
        (saleUnit, length, width, hundredths) => {
          // A bale of 5 ft³, a ton at 2,600 lb a yd³, a square foot at 3 in.
          const perYard = withTiers(testTable({ step: '0.01' }), ['3', '8'], [0.9, 0.8])
          const yards = 27 / Number(unitOf[saleUnit])
          const rates = [1, 0.9, 0.8].map(factor => both(((hundredths / 100) * factor).toFixed(4)))
          const how = { saleUnit, baleCovers: '20', soldDepth: '3', soldDensity: '2600' }
          const asSold = sold('pine-straw', { ...how, ratesPer: 'sold', rates }, perYard)
          const inYards = rates.map(({ lower }) => both((Number(lower) * yards).toFixed(9)))
          const plain = sold('pine-straw', { ...how, ratesPer: 'volume', rates: inYards }, perYard)
          const beds = [
            { ...straw, sizes: { length: `${length}`, width: `${width}` }, measuredBy: 'eye' },
            { ...straw, finish: 'compost' },
          ]
          const [one, other] = [asSold, plain].map(table => workOutBallpark(jobOf(beds, table), table))
          for (const end of ['low', 'likely', 'high'] as const)
            expect(Number(one!.range[end])).toBeCloseTo(Number(other!.range[end]), 1)
          expect(one!.materials).toEqual(other!.materials)
        },
      ),
      { numRuns: 40 },
    )
  })
})

describe('the rate table', () => {
  const faults = (table: RateTable) =>
    rateTableSchema.safeParse(table).error?.issues.map(({ path }) => path.join('.')) ?? []

  it('refuses a unit of which it isn’t said how much it is', () => {
    expect(faults(bales('20'))).toEqual([])
    expect(faults(tons())).toEqual([])
    expect(faults(sold('pine-straw', { saleUnit: 'bale' }))).toEqual([
      'finishes.3.baleCovers',
      'finishes.3.soldDepth',
    ])
    expect(faults(sold('stone', { saleUnit: 'ton' }))).toEqual(['finishes.5.soldDensity'])
    expect(faults(sold('stone', { saleUnit: 'area' }))).toEqual(['finishes.5.soldDepth'])
    expect(faults(bales('0'))).toEqual(['finishes.3.baleCovers'])
  })
})
