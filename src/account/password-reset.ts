import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { hashSecret, newSecret } from '../lib/tokens.ts'
import { endLinks, LINK_LASTS, lockAccountOf } from './mailed-links.ts'
import { hashPassword } from './password.ts'
import { asksForCode, endSecondFactor } from './second-factor.ts'
import { clearFailures, type From, togetherHash, whoHash } from './sign-in-delays.ts'

/**
 * Makes the one token with which the owner can choose a new password, for half an hour and once; an earlier one no
 * longer counts. Only its hash is stored. Gives it with the account's mail address; null when there is no owner yet.
 */
export async function offerPasswordReset(
  db: Kysely<Database>,
  now: Temporal.Instant,
): Promise<{ email: string; token: string } | null> {
  const owner = await db
    .selectFrom('account')
    .select(['id', 'email'])
    .where('role', '=', 'owner')
    .executeTakeFirst()
  if (!owner) return null
  const token = newSecret()
  const offer = {
    nonce: null,
    token_hash: hashSecret(token),
    made_at: now.toString(),
    ends_at: now.add(LINK_LASTS).toString(),
  }
  await db
    .insertInto('password_reset')
    .values({ account_id: owner.id, ...offer })
    .onConflict(conflict => conflict.column('account_id').doUpdateSet(offer))
    .execute()
  return { email: owner.email, token }
}

/**
 * Whose new password a token lets choose, and whether a code or a passkey is asked for besides.
 * @throws {NotFound} for an unknown, overtaken, used or expired one alike
 */
export async function requirePasswordReset(
  deps: Deps,
  token: string,
): Promise<{ id: number; name: string; email: string; asksCode: boolean }> {
  const found = await deps.db
    .selectFrom('password_reset')
    .innerJoin('account', 'account.id', 'password_reset.account_id')
    .select(['account.id', 'account.name', 'account.email', 'password_reset.nonce'])
    .where('token_hash', '=', hashSecret(token))
    .where('ends_at', '>', deps.now().toString())
    .where('account.ended_at', 'is', null)
    .executeTakeFirst()
  if (!found) throw new NotFound()
  const { nonce, ...account } = found
  return { ...account, asksCode: nonce !== null && (await asksForCode(deps.db, account.id)) }
}

/**
 * Sets the new password by a token, which is used up by it; every session of the account ends, and what failed
 * before from there delays no sign-in any more. The link of the command asks for no code, and ends that: it is for whoever has lost all of it.
 * @throws {NotFound} as `requirePasswordReset`, also when somebody else was faster
 */
export async function resetPassword(deps: Deps, token: string, fresh: string, from: From): Promise<void> {
  const password_hash = await hashPassword(fresh)
  const now = deps.now()
  await deps.db.transaction().execute(async trx => {
    await lockAccountOf(trx, 'password-link', token)
    const used = await trx
      .deleteFrom('password_reset')
      .where('token_hash', '=', hashSecret(token))
      .where('ends_at', '>', now.toString())
      .returning(['account_id', 'nonce'])
      .executeTakeFirst()
    if (!used) throw new NotFound()
    const account = await trx
      .updateTable('account')
      .set({ password_hash })
      .where('id', '=', used.account_id)
      .where('ended_at', 'is', null)
      .returning(['id', 'email'])
      .executeTakeFirst()
    if (!account) throw new NotFound()
    const { id, email } = account
    await endLinks(trx, id)
    if (used.nonce === null) await endSecondFactor(trx, id)
    await trx.deleteFrom('session').where('account_id', '=', id).execute()
    const unknown = { ...from, known: undefined }
    const counted = [
      togetherHash(deps.secretKey, `change of password ${id}`),
      whoHash(deps.secretKey, email, from),
      whoHash(deps.secretKey, email, unknown),
    ]
    for (const who of counted) await clearFailures(trx, who, now)
  })
}
