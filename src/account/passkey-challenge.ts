import type { Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { hashSecret, linkToken, newNonce, sameSecret } from '../lib/tokens.ts'

const LASTS = { minutes: 10 }

/** What a challenge is for: to keep a new passkey, or to prove oneself by one that is kept. */
export type ChallengeFor = 'keep' | 'prove'

type Making = Pick<Deps, 'secretKey' | 'now'>

/**
 * A fresh challenge, for ten minutes, one account and one thing. It tells by our own mark that it is ours, so that looking at a page stores nothing; that it is
 * answered once is what `useChallenge` keeps.
 */
export function newChallenge(deps: Making, accountId: number, what: ChallengeFor): string {
  const begin = `${deps.now().add(LASTS).epochMilliseconds}.${newNonce()}`
  return `${begin}.${markOf(deps, accountId, what, begin)}`
}

/** Whether what a browser answered, as base64url, is such a challenge and still stands. */
export function isChallenge(deps: Making, accountId: number, what: ChallengeFor, answered: string): boolean {
  const read = readChallenge(answered)
  if (!read || read.until <= deps.now().epochMilliseconds) return false
  return sameSecret(read.mark, markOf(deps, accountId, what, read.begin))
}

/** Uses a challenge up; gives whether it was the first time, which the database decides. */
export async function useChallenge(
  trx: Transaction<Database>,
  { now }: Pick<Deps, 'now'>,
  answered: string,
): Promise<boolean> {
  const until = Temporal.Instant.fromEpochMilliseconds(readChallenge(answered)!.until)
  await trx.deleteFrom('passkey_challenge').where('ends_at', '<', now().toString()).execute()
  const { numInsertedOrUpdatedRows } = await trx
    .insertInto('passkey_challenge')
    .values({ challenge_hash: hashSecret(answered), ends_at: until.toString() })
    .onConflict(conflict => conflict.doNothing())
    .executeTakeFirstOrThrow()
  return numInsertedOrUpdatedRows === 1n
}

function readChallenge(answered: string): { begin: string; until: number; mark: string } | null {
  const text = Buffer.from(answered, 'base64url').toString()
  const [, begin, until, mark] = /^((\d{1,15})\.[0-9a-f]{32})\.([\w-]{43})$/.exec(text) ?? []
  return begin && mark ? { begin, until: Number(until), mark } : null
}

function markOf({ secretKey }: Making, accountId: number, what: ChallengeFor, begin: string): string {
  return linkToken(secretKey, `passkey to ${what}`, `${accountId}\n${begin}`)
}
