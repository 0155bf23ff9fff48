import type { Deps } from '../deps.ts'
import { takeCode } from './authenticator.ts'
import { useRecoveryCode } from './recovery-codes.ts'
import { clearFailures, countAttempt, type From, isKnown, togetherHash } from './sign-in-delays.ts'

/** What came of a code; `waitSeconds` is 0 when it was only wrong. */
export type CodeProof = { ok: true } | { ok: false; wrong: 'code'; waitSeconds: number }

/**
 * Uses up a code of an account's app, or one of its recovery codes. Guesses wait as those of passwords do: strangers' all together, as a code has six digits and
 * comes from everywhere; a browser that signed in before by itself, and so somebody who is signed in (`from` is null).
 */
export async function checkCode(
  deps: Deps,
  account: { id: number; email: string },
  typed: string,
  from: From | null,
): Promise<CodeProof> {
  const { db, secretKey, now } = deps
  const who = togetherHash(secretKey, `codes of ${account.id}, ${apart(secretKey, account.email, from)}`)
  const waitSeconds = await countAttempt(db, who, now())
  if (waitSeconds > 0) return { ok: false, wrong: 'code', waitSeconds }
  const code = typed.slice(0, 100).replace(/[\s-]/g, '')
  const isRight = /^\d{6}$/.test(code)
    ? await takeCode(deps, db, account.id, code)
    : await useRecoveryCode(db, secretKey, account.id, code)
  if (!isRight) return { ok: false, wrong: 'code', waitSeconds: 0 }
  await clearFailures(db, who, now())
  return { ok: true }
}

function apart(secretKey: string, email: string, from: From | null): string {
  if (!from) return 'signed in'
  return isKnown(secretKey, email, from.known) ? from.known!.split('.')[0]! : 'strangers'
}
