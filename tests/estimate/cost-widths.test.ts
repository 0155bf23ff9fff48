import fc from 'fast-check'
import { expect, it } from 'vitest'
import { workOutBallpark } from '../../src/estimate/ballpark/ballpark.ts'
import type { BedTold } from '../../src/estimate/job/bed.ts'
import { jobQuantities } from '../../src/estimate/job/quantities.ts'
import { spreadsOf } from '../../src/estimate/scenarios/range.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { costTable } from './cost-priced.ts'
import { anyBed, anyBeds, anyVolume } from './generated.ts'
import { jobOf } from './jobs.ts'
import { taxedOnly, taxOf } from './taxes.ts'

function spreadOf(beds: BedTold[], table: RateTable) {
  const job = jobOf(beds, table)
  return spreadsOf(job, jobQuantities(job, table), table)()
}

const better: Record<string, string> = { eye: 'paces', paces: 'tape', tape: 'tape' }
const pairs = fc.sample(fc.tuple(anyBeds, fc.nat(9)), { seed: 11, numRuns: 300 })

const widths = (table: RateTable) =>
  pairs.map(([beds, which]) => {
    const measured = beds.map((bed, index) =>
      index === which % beds.length ? { ...bed, measuredBy: better[bed.measuredBy]! } : bed,
    )
    const told = spreadOf(beds, table)
    // A bed that is measured by tape already is the same job again.
    const same = beds[which % beds.length]!.measuredBy === 'tape'
    const now = same ? told : spreadOf(measured, table)
    return { told: told.high - told.low, now: now.high - now.low }
  })

// As with installed rates it holds nearly always, and the seed is fixed: of 4,000 pairs one went over with packs, by 1.8 %,
// and one with a cost per volume, by 1.3 %.
it.each([
  ['By packs, breaks and loads', costTable()],
  ['By a cost per volume', perVolume(costTable())],
])(
  'before rounding, a better way of measuring hardly ever widens a range by cost by more than 1 %%: %s',
  (_, table) => {
    const ratios = widths(table).map(({ told, now }) => (now - 1) / Math.max(1, told))
    expect(ratios.filter(ratio => ratio > 1.01).length).toBeLessThanOrEqual(1)
    expect(Math.max(...ratios)).toBeLessThan(1.02)
  },
)

function perVolume(table: RateTable): RateTable {
  return { ...table, finishes: table.finishes.map(finish => ({ ...finish, packs: [], materialCost: '40' })) }
}

// Everything or only some of it taxed, at an invented 8 %. Without a minimum where it is only some: of a minimum that decides
// less is taxed the more of the job is untaxed, so there a bed more may rightly lower what is to be paid.
it('with a tax in the range, likely is inside and one more bed never makes it fall', () => {
  const tables = fc.constantFrom(
    ...[taxedOnly('all'), taxedOnly('finish'), taxedOnly('extra', 'travel')].map(upkeep =>
      costTable({
        minimumCharge: upkeep.travel && upkeep.finish ? '120' : '0',
        step: '0.01',
        tax: taxOf({ inRanges: true, taxed: { upkeep, new: upkeep } }),
      }),
    ),
  )
  fc.assert(
    fc.property(
      anyBeds,
      fc.oneof(anyBed, anyVolume),
      tables,
      fc.subarray(['edging', 'weeding']),
      (beds, more, table, slugs) => {
        const [before, after] = [beds, [...beds, more]].map(
          list => workOutBallpark(jobOf(list, table, slugs), table, { narrower: false }).range,
        )
        for (const range of [before!, after!]) {
          expect(Number(range.low)).toBeLessThanOrEqual(Number(range.likely))
          expect(Number(range.likely)).toBeLessThanOrEqual(Number(range.high))
        }
        for (const which of ['low', 'likely', 'high'] as const)
          expect(Number(after![which]), which).toBeGreaterThanOrEqual(Number(before![which]) - 0.05)
      },
    ),
    { numRuns: 60 },
  )
})
