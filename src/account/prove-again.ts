import type { Deps } from '../deps.ts'
import type { Account } from '../http/signed-in.ts'
import { hashSecret } from '../lib/tokens.ts'
import { type CodeProof, checkCode } from './check-code.ts'
import { isPassword } from './password.ts'
import { findPasswordHash } from './queries.ts'
import { asksForCode, type Given } from './second-factor.ts'
import { markProved } from './session-queries.ts'
import { clearFailures, countAttempt, togetherHash } from './sign-in-delays.ts'

const PROVED_FOR = { minutes: 15 }

/** What came of proof: `wrong` names the field, and `waitSeconds` is 0 when it was only wrong. */
export type Proof = CodeProof | { ok: false; wrong: 'password'; waitSeconds: number }

/** Whether who is signed in proved it within a quarter of an hour; `provedAt` is ISO 8601, or null when never. */
export function isProved(provedAt: string | null, now: Temporal.Instant): boolean {
  return provedAt !== null && Temporal.Instant.compare(provedAt, now.subtract(PROVED_FOR)) > 0
}

/**
 * Whether this is the password of somebody who is signed in. Guesses are counted by account, so that strangers who guess at
 * the page to sign in delay nobody here.
 */
export async function checkPassword(deps: Deps, accountId: number, password: string): Promise<Proof> {
  const who = togetherHash(deps.secretKey, `change of password ${accountId}`)
  const waitSeconds = await countAttempt(deps.db, who, deps.now())
  if (waitSeconds > 0) return { ok: false, wrong: 'password', waitSeconds }
  const stored = await findPasswordHash(deps.db, accountId)
  if (!stored || !(await isPassword(password, stored)))
    return { ok: false, wrong: 'password', waitSeconds: 0 }
  await clearFailures(deps.db, who, deps.now())
  return { ok: true }
}

/** Proves a session anew by its account's password, and by a code or a passkey where one is asked for. */
export async function proveAgain(
  deps: Deps,
  account: Account,
  secret: string,
  given: { password: string } & Given,
): Promise<Proof> {
  let proof = await checkPassword(deps, account.id, given.password)
  if (proof.ok && (await asksForCode(deps.db, account.id)))
    proof = await checkCode(deps, account, given, null)
  if (proof.ok) await markProved(deps.db, hashSecret(secret), deps.now().toString())
  return proof
}
