import type { Deps } from '../deps.ts'
import { hashSecret, newSecret } from '../lib/tokens.ts'
import type { BrowserName } from './browser-name.ts'
import { isPassword } from './password.ts'
import { findAccountByEmail, lockAccount } from './queries.ts'
import { type Lasting, USUAL } from './session.ts'
import { deleteEndedSessions, deleteSession, insertSession } from './session-queries.ts'
import {
  clearFailures,
  countAttempt,
  countGuess,
  type From,
  freeAttempts,
  isKnown,
  togetherHash,
  whoHash,
} from './sign-in-delays.ts'

/** The browser in which somebody signs in, and the session that it had. */
export interface Here {
  name: BrowserName
  oldSecret: string | undefined
}

export type SignIn =
  | { ok: true; account: { id: number; role: 'owner' | 'helper' }; secret: string }
  | { ok: false; waitSeconds: number }

/**
 * Signs in with a mail address and a password. Every attempt counts before its password is looked at, so that
 * many at once can't slip past the delay; an address without an account answers the same, and as slowly.
 * `waitSeconds` is 0 when the two don't match, else how long the next attempt must wait.
 */
export async function signIn(
  deps: Deps,
  email: string,
  password: string,
  from: From,
  here: Here,
): Promise<SignIn> {
  const { db, secretKey, now } = deps
  const who = whoHash(secretKey, email, from)
  const strangers = isKnown(secretKey, email, from.known) ? undefined : togetherHash(secretKey, email)
  const waitSeconds = await countAttempt(db, who, now(), await freeAttempts(db, strangers, now()))
  if (waitSeconds > 0) return { ok: false, waitSeconds }
  const account = await findAccountByEmail(db, email)
  const right = await isPassword(password, account?.password_hash)
  if (!right || !account) {
    if (strangers) await countGuess(db, strangers, now())
    return { ok: false, waitSeconds: 0 }
  }
  await clearFailures(db, who, now())
  const secret = await startSession(deps, account.id, account.password_hash, here)
  return secret ? { ok: true, account, secret } : { ok: false, waitSeconds: 0 }
}

/**
 * Starts a session with a fresh secret, and ends the one that the browser had. Gives the secret, or null when
 * the account has ended or its password was changed in the meantime.
 */
export async function startSession(
  deps: Deps,
  accountId: number,
  passwordHash: string,
  { name, oldSecret }: Here,
  { days, idleDays }: Lasting = USUAL,
): Promise<string | null> {
  const secret = newSecret()
  const now = deps.now()
  return deps.db.transaction().execute(async trx => {
    if (!(await lockAccount(trx, accountId, passwordHash))) return null
    await deleteEndedSessions(trx, now.toString())
    if (oldSecret) await deleteSession(trx, hashSecret(oldSecret))
    await insertSession(trx, {
      secret_hash: hashSecret(secret),
      account_id: accountId,
      made_at: now.toString(),
      seen_at: now.toString(),
      ends_at: now.add({ hours: days * 24 }).toString(),
      idle_days: idleDays,
      ...name,
    })
    return secret
  })
}
