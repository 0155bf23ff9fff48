import { isCheckViolation } from '../../db/violations.ts'
import type { Deps } from '../../deps.ts'
import { Conflict, NotFound } from '../../http/errors.ts'
import { findVersion } from '../queries.ts'
import { insertCalledOff } from './queries.ts'

/**
 * Calls a version off that waits for its day: it is kept, and never comes into force. Gives whether it was called off
 * now, false where it had been before.
 * @throws {Conflict} when its day has come
 * @throws {NotFound} when there is no such version
 */
export async function callOffVersion(deps: Deps, accountId: number, version: number): Promise<boolean> {
  try {
    return await deps.db.transaction().execute(async trx => {
      const found = await findVersion(trx, version)
      if (!found) throw new NotFound()
      return insertCalledOff(trx, {
        rate_table_id: found.id,
        called_off_at: deps.now().toString(),
        called_off_by: accountId,
      })
    })
  } catch (error) {
    if (isCheckViolation(error, 'rate_table_called_off_in_time')) throw new Conflict('rates.day-has-come')
    throw error
  }
}
