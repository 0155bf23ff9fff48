import type { Deps } from '../deps.ts'
import type { Account } from '../http/signed-in.ts'
import { hashSecret } from '../lib/tokens.ts'
import { checkCode } from './check-code.ts'
import { endLinks } from './mailed-links.ts'
import { hashPassword } from './password.ts'
import { checkPassword, type Proof } from './prove-again.ts'
import type { Given } from './second-factor.ts'
import { deleteOtherSessions } from './session-queries.ts'
import { type Here, type Session, startSession } from './sign-in.ts'

export type PasswordChange = { ok: true; session: Session } | Exclude<Proof, { ok: true }>

/**
 * Changes a password and ends all sessions, this one going on under a fresh secret, and links by mail. Wrong guesses of the
 * current password are delayed as at sign-in; `waitSeconds` is 0 when it was only wrong. `given` is null where nothing is asked for besides.
 */
export async function changePassword(
  deps: Deps,
  account: Account,
  current: string,
  fresh: string,
  here: Here,
  given: Given | null,
): Promise<PasswordChange> {
  const proof = await checkPassword(deps, account.id, current)
  if (!proof.ok) return proof
  const codeProof = given === null ? proof : await checkCode(deps, account, given, null)
  if (!codeProof.ok) return codeProof
  const password_hash = await hashPassword(fresh)
  await deps.db.transaction().execute(async trx => {
    await trx.updateTable('account').set({ password_hash }).where('id', '=', account.id).execute()
    await endLinks(trx, account.id)
    await deleteOtherSessions(trx, account.id, hashSecret(here.oldSecret ?? ''))
  })
  const session = await startSession(deps, account.id, password_hash, here)
  return session ? { ok: true, session } : { ok: false, wrong: 'password', waitSeconds: 0 }
}
