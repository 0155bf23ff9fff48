import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { hashSecret } from '../lib/tokens.ts'
import { USUAL } from './lasting.ts'
import { lockAccountOf } from './mailed-links.ts'
import { type Here, type SignedIn, startSessionIn } from './sign-in.ts'

/**
 * Whom a link signs in.
 * @throws {NotFound} for an unknown, overtaken, used or expired one alike
 */
export async function requireSignInLink(deps: Deps, token: string): Promise<{ id: number; email: string }> {
  const account = await deps.db
    .selectFrom('sign_in_link')
    .innerJoin('account', 'account.id', 'sign_in_link.account_id')
    .select(['account.id', 'account.email'])
    .where('token_hash', '=', hashSecret(token))
    .where('ends_at', '>', deps.now().toString())
    .where('account.ended_at', 'is', null)
    .executeTakeFirst()
  if (!account) throw new NotFound()
  return account
}

/**
 * Signs in by a link, which is used up by that.
 * @throws {NotFound} as `requireSignInLink`, also when somebody else was faster
 */
export async function signInByLink(
  deps: Deps,
  token: string,
  here: Here,
): Promise<SignedIn & { email: string }> {
  return deps.db.transaction().execute(async trx => {
    await lockAccountOf(trx, 'sign-in-link', token)
    const link = await trx
      .deleteFrom('sign_in_link')
      .where('token_hash', '=', hashSecret(token))
      .where('ends_at', '>', deps.now().toString())
      .returning('account_id')
      .executeTakeFirst()
    const account =
      link &&
      (await trx
        .selectFrom('account')
        .select(['id', 'role', 'email', 'password_hash'])
        .where('id', '=', link.account_id)
        .where('ended_at', 'is', null)
        .executeTakeFirst())
    const session = account && (await startSessionIn(trx, deps.now(), account, here, USUAL, false))
    if (!session) throw new NotFound()
    return { account, session, email: account.email }
  })
}
