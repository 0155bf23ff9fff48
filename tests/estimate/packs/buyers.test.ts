import { expect, it } from 'vitest'
import { jobQuantities } from '../../../src/estimate/job/quantities.ts'
import { spreadsOf } from '../../../src/estimate/scenarios/range.ts'
import { costTable } from '../cost-priced.ts'
import { jobOf, toldBed } from '../jobs.ts'
import { bag, bulk } from './made.ts'

/** Of two finishes by their cost, together and mixed; a new object each time, of which nothing is known yet. */
function newTable() {
  const table = costTable({ fetching: { together: 'all', mixed: true } })
  const packs = [
    bag({ prices: [{ from: '0', each: '3.90' }] }),
    bulk({ delivered: { fee: '40', freeFrom: '6' } }),
  ]
  return {
    ...table,
    finishes: table.finishes.map(one => ({ ...one, pricedBy: 'cost' as const, packs })),
  }
}

function spreadBy(table: ReturnType<typeof newTable>, lengths: number[], finishes: string[]) {
  const beds = lengths.map((length, index) =>
    toldBed({
      sizes: { length: String(length), width: 'about 5' },
      measuredBy: 'eye',
      finish: finishes[index % finishes.length]!,
    }),
  )
  const job = jobOf(beds, table)
  return spreadsOf(job, jobQuantities(job, table), table)()
}

it('a range is the same whatever other jobs were worked out by the same table before', () => {
  const jobs: [number[], string[]][] = [
    [
      [12, 30],
      ['shredded-wood', 'stone'],
    ],
    [
      [13, 31],
      ['shredded-wood', 'stone'],
    ],
    [
      [80, 95],
      ['shredded-wood', 'stone'],
    ],
    [
      [40, 25, 17],
      ['shredded-wood', 'compost', 'stone'],
    ],
    [[22], ['stone']],
    [[22], ['compost']],
    [
      [18, 18],
      ['compost', 'shredded-wood'],
    ],
    [
      [12, 12.5],
      ['stone', 'compost'],
    ],
    // More sets of finishes than are kept, and then the first again.
    [[12], ['shredded-wood']],
    [
      [12, 30],
      ['shredded-wood', 'stone'],
    ],
  ]
  const table = newTable()
  for (const [lengths, finishes] of jobs)
    expect(spreadBy(table, lengths, finishes)).toEqual(spreadBy(newTable(), lengths, finishes))
})
