import type { Transaction } from 'kysely'
import type { Role } from '../db/schema/accounts.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import type { Language } from '../language/language.ts'
import { hashSecret, newSecret } from '../lib/tokens.ts'
import type { BrowserName } from './browser-name.ts'
import { type CodeProof, checkCode } from './check-code.ts'
import { findHalfSignedIn, halfToken } from './half-signed-in.ts'
import { type Lasting, USUAL } from './lasting.ts'
import { mailLink } from './mailed-links.ts'
import { isPassword } from './password.ts'
import { findAccountByEmail, lockAccount, noteLanguage } from './queries.ts'
import { asksForCode, type Given } from './second-factor.ts'
import { deleteEndedSessions, deleteSession, findLasting, insertSession } from './session-queries.ts'
import {
  clearFailures,
  countAttempt,
  countGuess,
  type From,
  freeAttempts,
  isKnown,
  MANY_GUESSES,
  togetherHash,
  whoHash,
} from './sign-in-delays.ts'

/** The browser in which somebody signs in, and the session that it had. */
export interface Here {
  name: BrowserName
  oldSecret: string | undefined
  language: Language
}

/** A session's secret, and for how many days the browser keeps it. */
export interface Session {
  secret: string
  days: number
}

/** Who is signed in now, and the session. */
export interface SignedIn {
  account: { id: number; role: Role }
  session: Session
}

/** What came of it: signed in; a code or a passkey is asked for besides, and `half` says that the password was right; or not. */
export type SignIn =
  | ({ ok: true } & SignedIn)
  | { ok: false; waitSeconds: number }
  | { ok: false; half: string }

/** What came of that: `over` when the password has to be typed again. */
export type SignInByCode = ({ ok: true; email: string } & SignedIn) | CodeFault | { ok: false; over: true }
type CodeFault = Exclude<CodeProof, { ok: true }>

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
    if (strangers) await countStrangersGuess(deps, strangers, account?.id)
    return { ok: false, waitSeconds: 0 }
  }
  await clearFailures(db, who, now())
  if (await asksForCode(db, account.id)) return { ok: false, half: halfToken(deps, account) }
  const session = await startSession(deps, account.id, account.password_hash, here)
  return session ? { ok: true, account, session } : { ok: false, waitSeconds: 0 }
}

/** Signs in whoever typed the right password before, with a code of their app, one of their recovery codes, or a passkey. */
export async function signInByCode(
  deps: Deps,
  half: string,
  given: Given,
  from: From,
  here: Here,
): Promise<SignInByCode> {
  const account = await findHalfSignedIn(deps, half)
  if (!account) return { ok: false, over: true }
  const proof = await checkCode(deps, account, given, from)
  if (!proof.ok) return proof
  const session = await startSession(deps, account.id, account.password_hash, here)
  return session ? { ok: true, account, email: account.email, session } : { ok: false, over: true }
}

/**
 * Starts a session with a fresh secret, and ends the one that the browser had. Where that was the same account's and still stood, this one
 * lasts, from now, as long as that one did. Null when the account has ended or its password was changed in the meantime.
 */
export async function startSession(
  deps: Deps,
  id: number,
  password_hash: string,
  here: Here,
): Promise<Session | null> {
  return deps.db.transaction().execute(trx => startSessionIn(trx, deps.now(), { id, password_hash }, here))
}

/** The same within a transaction, for as long as `fresh` says where it replaces none; `isProved` where the password was typed just now. */
export async function startSessionIn(
  trx: Transaction<Database>,
  now: Temporal.Instant,
  account: { id: number; password_hash: string },
  { name, oldSecret, language }: Here,
  fresh: Lasting = USUAL,
  isProved = true,
): Promise<Session | null> {
  if (!(await lockAccount(trx, account.id, account.password_hash))) return null
  const secret = newSecret()
  await deleteEndedSessions(trx, now.toString())
  const old = oldSecret && (await findLasting(trx, account.id, hashSecret(oldSecret)))
  const { days, idleDays } = old || fresh
  if (oldSecret) await deleteSession(trx, hashSecret(oldSecret))
  await insertSession(trx, {
    secret_hash: hashSecret(secret),
    account_id: account.id,
    made_at: now.toString(),
    seen_at: now.toString(),
    ends_at: now.add({ hours: days * 24 }).toString(),
    idle_days: idleDays,
    proved_at: isProved ? now.toString() : null,
    ...name,
  })
  await noteLanguage(trx, account.id, language)
  return { secret, days }
}

// While strangers go on guessing, whoever has the account gets a link by which to come in past them.
async function countStrangersGuess(deps: Deps, strangers: string, accountId: number | undefined) {
  const guesses = await countGuess(deps.db, strangers, deps.now())
  if (deps.config.smtpUrl && guesses % MANY_GUESSES === 1 && guesses > MANY_GUESSES)
    await mailLink(deps, 'sign-in-link', accountId)
}
