import type { RateTable } from '../estimate/rate-table.ts'

/** A rate table as homeowners choose from it: without the extras that only whoever measures may add. */
export function openTable(table: RateTable): RateTable {
  return { ...table, extras: table.extras.filter(extra => extra.offered) }
}
