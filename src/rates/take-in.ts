import type { Deps } from '../deps.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { Refusal } from '../http/errors.ts'
import { differenceOf } from './csv/difference.ts'
import { makeVersion } from './rates.ts'

/**
 * Makes a new version of a whole table that came from files. Gives its number, or null when nothing is different.
 * @throws {Conflict} when the newest version isn't `expected` any more: somebody else saved meanwhile
 * @throws {Refusal} when it is in other units or money than the business
 */
export async function takeInTable(
  deps: Deps,
  accountId: number,
  expected: number,
  table: RateTable,
): Promise<number | null> {
  return makeVersion(deps, accountId, expected, inForce => {
    if (table.units !== inForce.units || table.currency !== inForce.currency)
      throw new Refusal(400, 'error.400')
    return differenceOf(inForce, table).length === 0 ? null : table
  })
}
