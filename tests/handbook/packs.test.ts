import { describe, expect, it } from 'vitest'
import { jobQuantities } from '../../src/estimate/job/quantities.ts'
import { shoppingFor } from '../../src/estimate/packs/shopping.ts'
import { tripsOver } from '../../src/estimate/packs/trips.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import { starterFinishes } from '../../src/estimate/starter/starter.ts'
import { contentsOf, type Pack } from '../../src/estimate/table/pack.ts'
import type { Carrier } from '../../src/estimate/table/rate-table.ts'
import { unitSystem } from '../../src/estimate/units/units.ts'
import { Decimal } from '../../src/lib/decimal.ts'
import { jobOf } from '../estimate/jobs.ts'
import { countTrips } from '../estimate/packs/count-trips.ts'
import { bag, bale, bulk, flat, tableWith, weighed } from '../estimate/packs/made.ts'

const us = unitSystem('us')

/** How often so many yd³ of one loose finish are fetched. */
function tripsFor(volume: number, carriers: Carrier[], densityWet: string | null): number {
  const trips = tripsOver([{ densityWet }], { ...tableWith([]), carriers })
  return countTrips(trips, [{ loose: volume, packed: 0 }])
}

/** How many of a pack a bed of so many ft at 3 in takes, without any allowance. */
function unitsFor(pack: Pack, length: string, width: string, depth = '3'): string {
  const table = tableWith([pack])
  const job = jobOf([{ sizes: { length, width }, depth }], table)
  const { finishes } = shoppingFor(job, jobQuantities(job, table), table)
  return finishes[0]!.buying!.taken.parts[0]!.units.toFixed()
}

describe('bags', () => {
  // Exact arithmetic; "13 bags to the yard" is the trade's rounding.
  it.each([
    ['2', 13.5],
    ['3', 9],
  ])('of %s ft³ are %s to a cubic yard', (holds, count) => {
    expect(new Decimal(1).div(contentsOf(bag({ holds }), us)).toNumber()).toBeCloseTo(count, 12)
  })

  // LSU AgCenter column, 2002-12-01: 20 × 30 ft at 3 in are 75 bags of 2 ft³.
  it('of 2 ft³ are 75 for 20 × 30 ft at 3 in', () => {
    expect(unitsFor(bag(), '30', '20')).toBe('75')
  })

  // UF/IFAS Gardening Solutions: 12 × 12 ft at 3 in is 36 ft³; 18 bags of 2 ft³ and 12 of 3 by exact arithmetic.
  it.each([
    ['2', '18'],
    ['3', '12'],
  ])('of %s ft³ are %s for 12 × 12 ft at 3 in', (holds, count) => {
    expect(unitsFor(bag({ holds }), '12', '12')).toBe(count)
  })

  // Exact arithmetic: 20.000 ft³ ÷ 2 is 10, however it was come by.
  it.each([
    ['10', '8', '3'],
    ['80', '1', '3'],
    ['240', '1', '1'],
    ['26\' 8"', '3', '3'],
  ])('of 2 ft³ are 10 and never 11 for %s × %s ft at %s in, which is 20 ft³', (length, width, depth) => {
    expect(unitsFor(bag(), length, width, depth)).toBe('10')
  })

  // A bag of 2 ft³ weighs 18, 35 and 59 lb at 243, 473 and 800 lb a yd³ (exact arithmetic): wood chips dry and green
  // (Oregon DEQ, 2005), chips with soil (CalRecycle).
  it.each([
    [243, 18],
    [473, 35],
    [800, 59],
  ])('of 2 ft³ at %s lb a yd³ weigh %s lb', (density, weight) => {
    expect(contentsOf(bag(), us).times(density).toNumber()).toBeCloseTo(weight, 0)
    // So many bags as weigh a ton are one load of a ton, and one more is two.
    const carriers = [{ name: { en: 'truck', es: 'camión' }, volume: '100', payload: '2000' }]
    const bags = Math.floor(2000 / ((density * 2) / 27))
    const trips = (count: number) =>
      tripsFor(contentsOf(bag(), us).times(count).toNumber(), carriers, String(density))
    expect([trips(bags), trips(bags + 1)]).toEqual([1, 2])
  })
})

// LSU AgCenter column, 2002-12-01: 30 bales for 20 × 30 ft at 3 in where a bale covers 20 ft²; UF/IFAS Miami-Dade: a bale
// covers 18 to 20 ft² at 3 in. 600 ÷ 18 is 33.3: 34.
it.each([
  ['20', '30'],
  ['18', '34'],
])('of pine-straw bales that cover %s ft², %s for 20 × 30 ft at 3 in', (covers, count) => {
  expect(unitsFor(bale({ covers }), '30', '20')).toBe(count)
})

// Gravel at 1.3 ton a yd³: a ton covers 124.6 ft² at 2 in (exact arithmetic).
it('of gravel, a ton covers 124.6 ft² at 2 in and not 124.7', () => {
  const ton = weighed({ density: '2600' })
  expect(
    contentsOf(ton, us)
      .times(27 * 6)
      .toNumber(),
  ).toBeCloseTo(124.6, 1)
  expect(unitsFor(ton, '124.6', '1', '2')).toBe('1')
  expect(unitsFor(ton, '124.7', '1', '2')).toBe('2')
})

describe('loads', () => {
  const full = { name: { en: 'Pickup, full size', es: 'Camioneta' }, volume: '2.5', payload: null }
  const mini = { name: { en: 'Pickup, mini', es: 'Camioneta chica' }, volume: '1.5', payload: null }

  // UF/IFAS Miami-Dade, Florida Yards & Neighborhoods workbook: a level mini pickup holds 1.5 yd³, 162 ft² at 3 in; a
  // full-size one 2.5 yd³, 270 ft².
  it.each([
    [mini, '162', '163'],
    [full, '270', '271'],
  ])('%j is one trip for %s ft² at 3 in, and two for %s', (carrier, one, two) => {
    const table = tableWith([bulk({ step: '0.01', prices: flat('30') })], { carriers: [carrier] })
    const trips = (area: string) => {
      const job = jobOf([{ shape: 'area', sizes: { area }, depth: '3' }], table)
      return shoppingFor(job, jobQuantities(job, table), table).finishes[0]!.buying!.taken.trips.toNumber()
    }
    expect([trips(one), trips(two)]).toEqual([1, 2])
  })

  // CalRecycle: loose gravel 2,600 lb a yd³ and a fifth more when wet. A payload of 1,500 lb is invented.
  it('wet gravel fills a pickup by its weight, not its volume', () => {
    const stone = starterFinishes('us').find(({ slug }) => slug === 'stone')!
    const carrier = { ...full, payload: '1500' }
    expect(tripsFor(2.4, [carrier], stone.densityWet)).toBe(5)
    expect(tripsFor(2.5, [carrier], '600')).toBe(1)
  })
})

// University of Regina, Math Central: 2 ft³ laid 1 in deep and 3 ft wide is 8 ft long: one bag, to the inch.
it('a bag laid an inch deep and 3 ft wide is 8 ft long', () => {
  expect(unitsFor(bag(), '8', '3', '1')).toBe('1')
  expect(unitsFor(bag(), '8\' 1"', '3', '1')).toBe('2')
})

// The figure shown: 150 ft³ are 5.56 yd³ (LSU AgCenter column, 2002-12-01), and the cost is of whole bags, at an invented 3.
it('the cost of 20 × 30 ft at 3 in is of 75 bags', () => {
  const table = tableWith([bag({ prices: flat('3') })])
  const known = { ...table, costs: { ...table.costs, wage: '0' } }
  const price = workOutPrice(jobOf([{ sizes: { length: '30', width: '20' }, depth: '3' }], known), known)
  expect(price.costs!.material).toBe('225.00')
  expect(Number(price.toOrder[0]!.amount.value)).toBeCloseTo(5.56, 2)
})
