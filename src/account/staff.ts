import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { endLinks } from './mailed-links.ts'
import { endSecondFactor } from './second-factor.ts'

/**
 * Ends the account of somebody of the staff and every session of it; asked again, it does nothing more. The row stays, because
 * history names it.
 * @throws {NotFound} when there never was anybody of that number besides the owner
 */
export async function removeStaff(deps: Deps, id: number): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const ended = await trx
      .updateTable('account')
      .set(eb => ({ ended_at: eb.fn.coalesce('ended_at', eb.val(deps.now().toString())) }))
      .where('id', '=', id)
      .where('role', '<>', 'owner')
      .executeTakeFirstOrThrow()
    if (ended.numUpdatedRows === 0n) throw new NotFound()
    await trx.deleteFrom('session').where('account_id', '=', id).execute()
    await endLinks(trx, id)
    await endSecondFactor(trx, id)
  })
}
