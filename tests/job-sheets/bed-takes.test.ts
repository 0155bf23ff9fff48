import { expect, test } from 'vitest'
import type { BedTold } from '../../src/estimate/job/bed.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import type { Pack } from '../../src/estimate/table/pack.ts'
import { bedTakes, jobTakes } from '../../src/job-sheets/bed-takes.ts'
import { ticketDates } from '../../src/job-sheets/settings.ts'
import { takesInWords } from '../../src/job-sheets/sheet-beds.ts'
import { jobOf, testTable } from '../estimate/jobs.ts'
import { bag, bale, bulk } from '../estimate/packs/made.ts'

// In place, without an allowance, as the printed values are.
function takesOf(sizes: Record<string, string>, packs: Pack[], barrow = '6', more: Partial<BedTold> = {}) {
  const plain = testTable({ allowance: '0' })
  const table = { ...plain, finishes: plain.finishes.map(one => ({ ...one, packs })) }
  const job = jobOf([{ sizes, depth: '3', ...more }], table)
  const agreed = { job, table, shopping: workOutPrice(job, table).shopping }
  return { bed: bedTakes(job.beds[0]!, agreed, barrow), all: jobTakes(agreed, barrow) }
}

test('bags, bales and loads of a bed are those in print', () => {
  // UF/IFAS Gardening Solutions: 12 × 12 ft at 3 in are 36 ft³, so 18 bags of 2 ft³.
  expect(takesOf({ length: '12', width: '12' }, [bag()]).bed[0]!.count.toFixed(3)).toBe('18.000')
  // LSU AgCenter, 2002-12-01: 20 × 30 ft at 3 in are 150 ft³, 75 bags of 2 ft³, or 30 bales at 20 ft² a bale.
  expect(takesOf({ length: '20', width: '30' }, [bag()]).bed[0]!.count.toFixed(3)).toBe('75.000')
  const straw = bale({ covers: '20', deep: '3' })
  expect(takesOf({ length: '20', width: '30' }, [straw]).bed[0]!.count.toFixed(3)).toBe('30.000')
  // F. W. Taylor, Shop Management, 1911: 43 loads of 2.32 ft³, so 99.76 ft³, here 99.76 × 4 ft at 3 in.
  const taylor = takesOf({ length: '99.76', width: '4' }, [bulk()], '2.32').bed[0]!
  expect([taylor.pack, taylor.count.toFixed(3)]).toEqual([null, '43.000'])
  // By the same 36 ft³, 6 loads of 6 ft³: common practice for the barrow, no source.
  expect(takesOf({ length: '12', width: '12' }, []).bed[0]!.count.toFixed(3)).toBe('6.000')
})

test('what lies beneath comes first, and all beds alike add up', () => {
  const layers = [{ what: 'compost', depth: '1' }]
  const { bed, all } = takesOf({ length: '12', width: '12' }, [], '6', { layers, count: '3' })
  // 144 ft² at 1 in are 12 ft³, so 2 loads.
  expect(bed.map(({ finish, count }) => [finish.slug, count.toFixed(2)])).toEqual([
    ['compost', '2.00'],
    ['shredded-wood', '6.00'],
  ])
  expect(all.map(({ finish, count }) => [finish.slug, count.toFixed(2)])).toEqual([
    ['compost', '6.00'],
    ['shredded-wood', '18.00'],
  ])
})

test('a little is never said to be nothing', () => {
  const { count } = takesOf({ length: '1', width: '1' }, []).bed[0]!
  expect(takesInWords({ pack: null, count }, 'en')).toBe('0.1 wheelbarrow loads')
  expect(takesInWords({ pack: null, count: count.times(24) }, 'es')).toBe('1 carretilla')
})

test('a ticket is good after so many working days, for so many days, or nobody says', () => {
  const settings = { barrow: '6', digWaitDays: 2, digValidDays: 14, digSource: '' }
  // Requested on Thursday, March 5: Friday and Monday pass.
  expect(ticketDates(settings, '2026-03-05')).toEqual({ from: '2026-03-09', until: '2026-03-22' })
  expect(ticketDates({ ...settings, digWaitDays: null }, '2026-03-05')).toBeNull()
})
