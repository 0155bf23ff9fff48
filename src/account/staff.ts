import { isUniqueViolation } from '../db/violations.ts'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import type { NewAccount } from './form.ts'
import { endLinks } from './mailed-links.ts'
import { hashPassword } from './password.ts'
import { insertAccount } from './queries.ts'

/**
 * Makes an account for somebody who helps.
 * @throws {Conflict} when somebody signs in with that mail address already
 */
export async function addHelper(deps: Deps, { name, email, password }: NewAccount): Promise<void> {
  const password_hash = await hashPassword(password)
  const made_at = deps.now().toString()
  try {
    await deps.db
      .transaction()
      .execute(trx => insertAccount(trx, { name, email, role: 'helper', password_hash, made_at }))
  } catch (error) {
    if (isUniqueViolation(error, 'account_email')) throw new Conflict('account.email-taken')
    throw error
  }
}

/**
 * Ends a helper's account and every session of it; asked again, it does nothing more. The row stays, because history
 * names it.
 * @throws {NotFound} when there never was such a helper
 */
export async function removeHelper(deps: Deps, id: number): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const ended = await trx
      .updateTable('account')
      .set(eb => ({ ended_at: eb.fn.coalesce('ended_at', eb.val(deps.now().toString())) }))
      .where('id', '=', id)
      .where('role', '=', 'helper')
      .executeTakeFirstOrThrow()
    if (ended.numUpdatedRows === 0n) throw new NotFound()
    await trx.deleteFrom('session').where('account_id', '=', id).execute()
    await endLinks(trx, id)
  })
}
