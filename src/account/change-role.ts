import type { Kysely } from 'kysely'
import type { GivenRole } from '../db/schema/accounts.ts'
import type { Database } from '../db/schema.ts'
import { isCheckViolation } from '../db/violations.ts'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'

/** How many changes are told. */
const MOST = 20

/**
 * Gives somebody of the staff another role, keeps who did so, and ends every session of theirs, as each shows pages of the role
 * before. Gives whether it is another one: of two taps the second changes nothing.
 * @throws {NotFound} when nobody of that number works here any more
 * @throws {Conflict} when no owner would be left
 */
export async function changeRole(
  deps: Deps,
  ownerId: number,
  id: number,
  role: GivenRole,
): Promise<{ name: string; isNew: boolean }> {
  const made_at = deps.now().toString()
  return deps.db.transaction().execute(async trx => {
    const account = await trx
      .selectFrom('account')
      .select(['name', 'role'])
      .where('id', '=', id)
      .where('ended_at', 'is', null)
      .forUpdate()
      .executeTakeFirst()
    if (!account) throw new NotFound()
    const { name, role: was } = account
    if (was === role) return { name, isNew: false }
    try {
      await trx.updateTable('account').set({ role }).where('id', '=', id).execute()
    } catch (error) {
      if (isCheckViolation(error, 'account_keeps_owner')) throw new Conflict('account.keeps-owner')
      throw error
    }
    const change = { account_id: id, was, becomes: role, made_at, made_by: ownerId }
    await trx.insertInto('role_change').values(change).execute()
    await trx.deleteFrom('session').where('account_id', '=', id).execute()
    return { name, isNew: true }
  })
}

/** The last changes of a role, the newest first. */
export async function findRoleChanges(db: Kysely<Database>) {
  return db
    .selectFrom('role_change')
    .innerJoin('account', 'account.id', 'role_change.account_id')
    .innerJoin('account as owner', 'owner.id', 'role_change.made_by')
    .select(['account.name', 'was', 'becomes', 'role_change.made_at', 'owner.name as by'])
    .orderBy('role_change.id', 'desc')
    .limit(MOST)
    .execute()
}
