import type { Finish, RateTable } from '../estimate/table/rate-table.ts'
import { canBePicked } from '../estimate/table/substitutes.ts'

/** A rate table as homeowners choose from it: without what is for the staff alone, and what is sold out. */
export interface OpenTable extends RateTable {
  /** What they would be shown if it weren’t sold out at present. */
  soldOut: Finish[]
  /** With everything. Prices are worked out with this one: none hangs on what else can be picked just now. */
  whole: RateTable
}

export function openTable(table: RateTable): OpenTable {
  return {
    ...table,
    finishes: table.finishes.filter(canBePicked),
    extras: table.extras.filter(extra => extra.offered),
    soldOut: table.finishes.filter(({ offered, soldOut }) => offered && soldOut),
    whole: table,
  }
}
