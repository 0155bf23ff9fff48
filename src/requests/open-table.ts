import type { Finish, RateTable } from '../estimate/table/rate-table.ts'
import { canBePicked } from '../estimate/table/substitutes.ts'

/** A rate table as homeowners choose from it: without what is for the staff alone, and what is sold out. */
export interface OpenTable extends RateTable {
  /** What they would be shown if it weren’t sold out at present. */
  soldOut: Finish[]
  /** With everything. Prices are worked out with this one: none hangs on what else can be picked just now. */
  whole: RateTable
}

// Almost always asked for is the one in force, which is the same object for days.
const made = new WeakMap<RateTable, OpenTable>()

export function openTable(table: RateTable): OpenTable {
  const known = made.get(table)
  if (known) return known
  const open = {
    ...table,
    finishes: table.finishes.filter(canBePicked),
    extras: table.extras.filter(extra => extra.offered),
    soldOut: table.finishes.filter(({ offered, soldOut }) => offered && soldOut),
    whole: table,
  }
  made.set(table, open)
  return open
}
