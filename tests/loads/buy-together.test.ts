import { expect, test } from 'vitest'
import { plainTerms } from '../../src/estimate/job/terms.ts'
import type { Pack } from '../../src/estimate/table/pack.ts'
import { Decimal } from '../../src/lib/decimal.ts'
import { boughtApart, buyFor } from '../../src/loads/buy.ts'
import { takeFromOnHand } from '../../src/loads/from-on-hand.ts'
import { inWholePacks, shareOut } from '../../src/loads/share-out.ts'
import { type Wanted, wantedOf, withGot } from '../../src/loads/wanted.ts'
import { jobOf } from '../estimate/jobs.ts'
import { bag, bale, bulk, tableWith } from '../estimate/packs/made.ts'
import { bedTold } from '../helpers/requests.ts'

/** A job of one bed, as wide and long as this in feet, 3 in deep. */
function wants(jobId: number, length: string, width: string, packs: Pack[]): Wanted[] {
  const table = tableWith(packs)
  const job = jobOf([bedTold({ sizes: { length: `${length} ft`, width: `${width} ft` } })], table)
  return wantedOf(jobId, job, table, plainTerms)
}
const lines = (packs: Pack[], wanted: Wanted[]) =>
  buyFor(wanted, tableWith(packs)).lines.map(({ units, pack, money }) => `${units} ${pack?.slug} ${money}`)

test('a day’s bags are those of all its jobs together', () => {
  const packs = [bag()]
  // LSU AgCenter, 2002-12-01: 20 by 30 ft at 3 in are 75 bags of 2 ft³. UF/IFAS Gardening Solutions: 12 by 12 ft are 18.
  const wanted = [...wants(1, '20', '30', packs), ...wants(2, '12', '12', packs)]
  expect(lines(packs, wanted)).toEqual(['93 bag 372'])
  // LSU AgCenter: 30 bales of pine straw at 20 ft² a bale, 3 in deep.
  const bales = [bale({ prices: [{ from: '0', each: '6' }] })]
  expect(lines(bales, wants(1, '20', '30', bales))).toEqual(['30 bale 180'])
})

test('a price break, a least order, a step and a delivery are reached together, and that is told against job by job', () => {
  // 30 bags and 18 bags: from 40 on each is cheaper. 48 × 3.60 = 172.80, apart (30 + 18) × 4.20 = 201.60.
  const breaks = [
    bag({
      prices: [
        { from: '0', each: '4.20' },
        { from: '40', each: '3.60' },
      ],
    }),
  ]
  const two = [...wants(1, '20', '12', breaks), ...wants(2, '12', '12', breaks)]
  expect(buyFor(two, tableWith(breaks)).total?.toFixed(2)).toBe('172.80')
  expect(boughtApart(two, tableWith(breaks))?.toFixed(2)).toBe('201.60')
  // 60 ft³ and 36 ft³ are 3.56 yd³: 4 in steps of 1, with one delivery at 50. Apart 3 and 2, delivered twice.
  const brought = [bulk({ step: '1', collected: false, delivered: { fee: '50', freeFrom: null } })]
  const heap = [...wants(1, '20', '12', brought), ...wants(2, '12', '12', brought)]
  expect(buyFor(heap, tableWith(brought)).total?.toFixed(2)).toBe('178.00')
  expect(boughtApart(heap, tableWith(brought))?.toFixed(2)).toBe('260.00')
})

test('a material of which no pack is listed is bought as it comes, and nothing is said of its price', () => {
  const bought = buyFor(wants(1, '12', '12', []), tableWith([]))
  // UF/IFAS Gardening Solutions: 1.3333 yd³.
  expect(bought.lines.map(({ units, pack }) => [units.toFixed(), pack])).toEqual([['1.334', null]])
  expect(bought.total).toBeNull()
})

test('what is on hand is taken first, as whole bags and no more than are needed or there', () => {
  const packs = [bag()]
  const table = tableWith(packs)
  const [finish] = table.finishes
  const row = { id: 1, of: 'finish', slug: finish!.slug, pack: 'bag', spot: '', units: '5.000' } as const
  const wanted = [...wants(1, '20', '30', packs), ...wants(2, '12', '12', packs)]
  const taken = takeFromOnHand(wanted, [row], table)
  expect(taken.takes.map(({ units }) => units.toFixed())).toEqual(['5'])
  expect(taken.rows[0]!.units).toBe('0.000')
  expect(buyFor(taken.wanted, table).lines.map(({ units }) => units.toFixed())).toEqual(['88'])
  const plenty = takeFromOnHand(wanted, [{ ...row, units: '100.000' }], table)
  expect(plenty.rows[0]!.units).toBe('7.000')
  expect(buyFor(plenty.wanted, table).lines).toEqual([])
})

test('what was got is shared out job by job, and nothing is missing or over once all of it is there', () => {
  const packs = [bag()]
  // 17.36 and 11.94 bags make 30, of which the jobs are handed 18 and 12.
  const wanted = [...wants(1, '11.57', '12', packs), ...wants(2, '7.96', '12', packs)]
  const [line] = buyFor(wanted, tableWith(packs)).lines
  const { shares, wanted: after } = shareOut(line!.units, line!.contents, packs[0], wanted)
  expect(line!.units.toFixed()).toBe('30')
  expect(inWholePacks(shares, line!.units).map(({ units }) => units.toFixed())).toEqual(['18', '12'])
  expect(after.map(({ left }) => left.toFixed())).toEqual(['0', '0'])
  expect(buyFor(after, tableWith(packs)).lines).toEqual([])
  const few = shareOut(new Decimal(20), line!.contents, packs[0], wanted)
  expect(few.wanted[0]!.left.toFixed()).toBe('0')
  expect(buyFor(few.wanted, tableWith(packs)).lines.map(({ units }) => units.toFixed())).toEqual(['10'])
  expect(withGot(wanted[0]!, new Decimal(3)).left.toFixed()).toBe('0')
})
