import { buyTogether } from '../../../src/estimate/packs/buy-together.ts'
import type { Pack } from '../../../src/estimate/table/pack.ts'
import type { Finish, RateTable } from '../../../src/estimate/table/rate-table.ts'
import { Decimal } from '../../../src/lib/decimal.ts'
import { tableWith } from './made.ts'

/** A table whose first finishes are bought in these ways, one list for each. */
export function tableOf(
  packs: Pack[][],
  changes: Partial<RateTable>,
  wet: (string | null)[] = [],
): RateTable {
  const table = tableWith([], changes)
  return {
    ...table,
    finishes: table.finishes.map((finish, index): Finish => {
      const densityWet = wet[index] === undefined ? finish.densityWet : wet[index]
      return packs[index] ? { ...finish, packs: packs[index], densityWet, pinned: null } : finish
    }),
  }
}

/** What so many yd³ of each of the first finishes are bought in, together. */
export function bought(needs: number[], table: RateTable) {
  const asked = needs.map((need, index) => ({ finish: table.finishes[index]!, need: new Decimal(need) }))
  const { finishes, trips, tripCost } = buyTogether(asked, table)
  const offers = finishes.map(({ buying }) => buying!.taken)
  const goods = offers.reduce((sum, { total, fetching }) => sum.plus(total).minus(fetching), new Decimal(0))
  return { finishes, offers, trips: trips.toNumber(), total: goods.plus(trips.times(tripCost)).toNumber() }
}
