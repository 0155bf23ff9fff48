import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import type { BedTold } from '../../../src/estimate/job/bed.ts'
import { jobQuantities } from '../../../src/estimate/job/quantities.ts'
import { plainTerms } from '../../../src/estimate/job/terms.ts'
import { shoppingFor } from '../../../src/estimate/packs/shopping.ts'
import { groundsOf, rollNeeded } from '../../../src/estimate/packs/strips.ts'
import { workOutPrice } from '../../../src/estimate/price/firm-price.ts'
import { completeTable, storedTable } from '../../../src/estimate/table/complete-table.ts'
import type { Extra, RateTable } from '../../../src/estimate/table/rate-table.ts'
import { worksheetOf } from '../../../src/estimate/worksheet/worksheet.ts'
import { Decimal } from '../../../src/lib/decimal.ts'
import { shaped } from '../generated.ts'
import { bedOf, jobOf, testTable } from '../jobs.ts'
import { extraOf, flat, piece, roll } from './made.ts'

const byStrips = { width: '4', length: '100', overlap: '0.5', strips: true, prices: flat('52') }

/** A table whose one extra is bought on this roll, 4 ft wide and 100 ft long. */
function withRoll(changes: Parameters<typeof roll>[0] = {}, extra: Partial<Extra> = {}): RateTable {
  const fabric = extraOf({ packs: [roll({ ...byStrips, ...changes })], slug: 'fabric', ...extra })
  return { ...testTable(), extras: [fabric] }
}

type Bed = Partial<BedTold>
const rectangle = (length: string, width: string, rest: Bed = {}): Bed => ({
  sizes: { length, width },
  ...rest,
})

function partFor(beds: Bed[], table = withRoll(), extras = ['fabric']) {
  const job = jobOf(beds, table, extras)
  return shoppingFor(job, jobQuantities(job, table), table).extras[0]!.buying.taken.parts[0]!
}

const rollsFor = (...told: Parameters<typeof partFor>) => partFor(...told).units.toFixed()

/** ft of roll for one bed. */
function lengthFor(bed: Bed, changes: Parameters<typeof roll>[0] = {}): Decimal {
  return rollNeeded(groundsOf(bedOf(bed), testTable()), roll({ ...byStrips, ...changes }))
}

describe('strips of a roll 4 ft wide, half a foot over the next', () => {
  it.each<[string, Bed, string]>([
    // ⌈(10 − 0.5) ÷ 3.5⌉ = 3 strips of 20 ft, whichever side is told first.
    ['10 × 20 ft', rectangle('20', '10'), '60'],
    ['20 × 10 ft', rectangle('10', '20'), '60'],
    // 4 ft are one strip, and an inch more takes a second one; 0.5 + 2 × 3.5 = 7.5 ft are two.
    ['20 × 4 ft', rectangle('20', '4'), '20'],
    ['20 ft × 4 ft 1 in', rectangle('20', '4 ft 1 in'), '40'],
    ['20 × 7.5 ft', rectangle('20', '7.5'), '40'],
    ['20 × 7.6 ft', rectangle('20', '7.6'), '60'],
    // Narrower than the overlap it is one strip all the same.
    ['20 ft × 4 in', rectangle('20', '4 in'), '20'],
    ['three beds alike', rectangle('20', '10', { count: 3 }), '180'],
    // A tree pit is cut out of what lies over it.
    ['a pit of 3 × 3 ft in it', rectangle('20', '10', { cutOuts: '3 x 3' }), '60'],
    // ⌈(10 − 0.5) ÷ 3.5⌉ = 3 of 10 ft, over the square around it.
    ['a circle 10 ft across', { shape: 'circle', sizes: { diameter: '10' } }, '30'],
    // A square of 10 ft.
    ['100 ft²', { shape: 'area', sizes: { area: '100' } }, '30'],
    // 25 ft³ at 3 in are 100 ft².
    ['25 ft³', { shape: 'volume', sizes: { volume: '25 ft3' }, depth: '3' }, '30'],
    // Each arm by itself: 30 + 2 × 20. Around both it would be 7 × 30.
    [
      'two arms, 30 × 3 and 20 × 5 ft',
      { shape: 'two-arms', sizes: { length: '30', width: '3', armLength: '20', armWidth: '5' } },
      '70',
    ],
  ])('over %s', (_, bed, length) => {
    expect(lengthFor(bed).toFixed()).toBe(length)
  })

  it('goes onto whole rolls, all beds together and pieced where one ends', () => {
    // 60 ft; 120 ft are two rolls of 100 ft, as 200 ft are, and 40 ft more a third.
    expect(rollsFor([rectangle('20', '10')])).toBe('1')
    expect(rollsFor([rectangle('20', '10', { count: 2 })])).toBe('2')
    expect(rollsFor([rectangle('20', '10', { count: 2 }), rectangle('40', '7.5')])).toBe('2')
    expect(rollsFor([rectangle('20', '10', { count: 3 }), rectangle('30', '7.5')])).toBe('3')
  })

  it('counts only the beds that it is for', () => {
    const beds = [rectangle('20', '10', { count: 2 }), rectangle('40', '4', { extras: ['fabric'] })]
    expect(rollsFor(beds, withRoll(), [])).toBe('1')
  })

  it('is by area where the table doesn’t say so, where the extra isn’t by area, and of pieces', () => {
    // 1 × 90 ft, twice: 180 ft of strips; by area 180 ÷ (3.5 × 100) = 0.51.
    const beds = [rectangle('90', '1', { count: 2 })]
    expect(rollsFor(beds)).toBe('2')
    expect(rollsFor(beds, withRoll({ strips: false }))).toBe('1')
    expect(rollsFor(beds, withRoll({}, { per: 'bed' }))).toBe('1')
    // 180 ÷ 20.
    expect(rollsFor(beds, withRoll({}, { packs: [piece()] }))).toBe('9')
  })

  it('costs by the rolls bought, and changes no price', () => {
    const priced = (strips: boolean) => {
      const table = withRoll({ strips }, { lower: '0.50', upper: '0.80' })
      const job = jobOf([rectangle('90', '1', { count: 2 })], table, ['fabric'])
      return workOutPrice(job, table, plainTerms)
    }
    const [strips, area] = [priced(true), priced(false)]
    expect(strips.total).toBe(area.total)
    const material = (price: typeof strips) => price.shopping.extras[0]!.buying.taken.material.toFixed(2)
    expect([material(strips), material(area)]).toEqual(['104.00', '52.00'])
  })

  it('is told in the worksheet', () => {
    const table = withRoll()
    const job = jobOf([rectangle('20', '10', { count: 2 }), rectangle('40', '4')], table, ['fabric'])
    expect(worksheetOf(job, table).buying.at(-1)!.steps).toEqual([
      'Strips 4 ft wide, 0.5 ft over the next: (10 ft − 0.5 ft) ÷ (4 ft − 0.5 ft) = 2.71, so 3 × 20 ft × 2 = 120 ft; 4 ft across, so 1 × 40 ft = 40 ft; 160 ft in all; 160 ft ÷ 100 ft = 1.6, so 2 × roll, picked up; 2 × $52.00 = $104.00',
    ])
  })
})

test('a table that was stored before is by area still', () => {
  const stored = structuredClone(storedTable(withRoll()))
  const [pack] = stored.extras[0]!.packs as Partial<ReturnType<typeof roll>>[]
  delete pack!.strips
  expect(completeTable(stored).extras[0]!.packs[0]).toMatchObject({ kind: 'roll', strips: false })
})

describe('whatever the bed and the roll', () => {
  const tenths = (least: number, most: number) =>
    fc.integer({ min: least * 10, max: most * 10 }).map(number => (number / 10).toFixed(1))
  const anyRoll = fc
    .record({ width: tenths(2, 15), overlap: tenths(0, 1.9) })
    .map(sizes => ({ ...byStrips, ...sizes }))

  it('all strips together are at least as large as the bed', () => {
    fc.assert(
      fc.property(shaped, anyRoll, (bed, sizes) => {
        const { area } = jobQuantities(jobOf([bed], testTable()), testTable())
        // Outlines are drawn to a ten-thousandth of a foot.
        expect(lengthFor(bed, sizes).times(sizes.width).plus('0.05').gte(area)).toBe(true)
      }),
    )
  })

  it('a larger bed never takes less of the roll', () => {
    const growing = fc.tuple(tenths(1, 60), tenths(1, 60), tenths(0, 20), tenths(0, 20), anyRoll)
    fc.assert(
      fc.property(growing, ([length, width, longer, wider, sizes]) => {
        const larger = rectangle(
          new Decimal(length).plus(longer).toFixed(),
          new Decimal(width).plus(wider).toFixed(),
        )
        expect(lengthFor(larger, sizes).gte(lengthFor(rectangle(length, width), sizes))).toBe(true)
      }),
    )
  })
})
