import { isUniqueViolation } from '../db/violations.ts'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import type { NewAccount } from './form.ts'
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
 * Ends a helper's account and every session of it. The row stays, because history names it.
 * @throws {NotFound} when there is no such helper, or not any more
 */
export async function removeHelper(deps: Deps, id: number): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const ended = await trx
      .updateTable('account')
      .set({ ended_at: deps.now().toString() })
      .where('id', '=', id)
      .where('role', '=', 'helper')
      .where('ended_at', 'is', null)
      .executeTakeFirstOrThrow()
    if (ended.numUpdatedRows === 0n) throw new NotFound()
    await trx.deleteFrom('session').where('account_id', '=', id).execute()
  })
}
