import type { Deps } from '../deps.ts'
import { takeCode } from './authenticator.ts'
import { takePasskey } from './prove-by-passkey.ts'
import { useRecoveryCode } from './recovery-codes.ts'
import type { Given } from './second-factor.ts'
import { clearFailures, countAttempt, type From, isKnown, togetherHash } from './sign-in-delays.ts'

/** What came of a code or a passkey; `waitSeconds` is 0 when it was only wrong. */
export type CodeProof = { ok: true } | { ok: false; wrong: 'code' | 'passkey'; waitSeconds: number }

/**
 * Uses up a code of an account's app, or one of its recovery codes; or takes what one of its passkeys answered. Guesses wait as those of passwords do: strangers' all together,
 * as a code has six digits and comes from everywhere; a browser that signed in before by itself, and so somebody who is signed in (`from` is null). Passkeys, which nobody
 * guesses, are counted by themselves.
 */
export async function checkCode(
  deps: Deps,
  account: { id: number; email: string },
  given: Given,
  from: From | null,
): Promise<CodeProof> {
  const { db, secretKey, now } = deps
  const wrong = given.passkey === '' ? 'code' : 'passkey'
  const who = togetherHash(secretKey, `${wrong}s of ${account.id}, ${apart(secretKey, account.email, from)}`)
  const waitSeconds = await countAttempt(db, who, now())
  if (waitSeconds > 0) return { ok: false, wrong, waitSeconds }
  if (!(await isRight(deps, account.id, given))) return { ok: false, wrong, waitSeconds: 0 }
  await clearFailures(db, who, now())
  return { ok: true }
}

async function isRight(deps: Deps, accountId: number, { code: typed, passkey }: Given): Promise<boolean> {
  if (passkey !== '') return takePasskey(deps, accountId, passkey)
  const code = typed.slice(0, 100).replace(/[\s-]/g, '')
  return /^\d{6}$/.test(code)
    ? takeCode(deps, deps.db, accountId, code)
    : useRecoveryCode(deps.db, deps.secretKey, accountId, code)
}

function apart(secretKey: string, email: string, from: From | null): string {
  if (!from) return 'signed in'
  return isKnown(secretKey, email, from.known) ? from.known!.split('.')[0]! : 'strangers'
}
