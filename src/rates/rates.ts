import { isUniqueViolation } from '../db/violations.ts'
import type { Deps } from '../deps.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { rateTableSchema } from '../estimate/table/rate-table-schema.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import type { Handful } from './handful.ts'
import { withHandful } from './handful.ts'
import { findNewestVersion, findRateTable, insertRateTable, nextVersionNumber } from './queries.ts'

/**
 * Makes a new version of the rate table with the owner's numbers; the old ones stay as they were. Gives its
 * number, or null when nothing is different and so none was made.
 * @throws {Conflict} when the newest version isn't `expected` any more: somebody else saved meanwhile
 */
export async function changeRates(
  deps: Deps,
  accountId: number,
  expected: number,
  handful: Handful,
): Promise<number | null> {
  return makeVersion(deps, accountId, expected, inForce => {
    const body = rateTableSchema.parse(withHandful(inForce, handful))
    return sameTable(body, inForce) ? null : body
  })
}

/**
 * Makes a new version of what `remake` gives for the table in force, in one transaction; null makes none.
 * It is in force at once, and takes the place of a version that was waiting for its day.
 * @throws {Conflict} when the newest version isn't `expected` any more: somebody else saved meanwhile
 */
export async function makeVersion(
  deps: Deps,
  accountId: number,
  expected: number,
  remake: (inForce: RateTable) => RateTable | null,
): Promise<number | null> {
  try {
    return await deps.db.transaction().execute(async trx => {
      const version = await nextVersionNumber(trx)
      const newest = await findNewestVersion(trx)
      const inForce = await findRateTable(trx, deps.now())
      if (!newest || !inForce) throw new NotFound()
      // Another version may come in between the two readings.
      if (newest.version !== expected || inForce.version > expected)
        throw new Conflict('rates.changed-meanwhile')
      const body = remake(inForce.body)
      if (!body) return null
      const made = { made_at: deps.now().toString(), made_by: accountId }
      await insertRateTable(trx, { version, body, ...made })
      return version
    })
  } catch (error) {
    if (isUniqueViolation(error, 'rate_table_version_key')) throw new Conflict('rates.changed-meanwhile')
    throw error
  }
}

// Parsing puts the keys in one order: jsonb doesn't keep the one in which they were written.
function sameTable(one: RateTable, other: RateTable): boolean {
  return JSON.stringify(one) === JSON.stringify(rateTableSchema.parse(other))
}
