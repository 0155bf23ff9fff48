import { type Kysely, sql } from 'kysely'
import type { Database } from '../db/schema.ts'
import { linkToken, newNonce, sameSecret } from '../lib/tokens.ts'

const FREE_ATTEMPTS = 5
/** Once strangers have guessed so often within an hour, each network has one free attempt left. */
export const MANY_GUESSES = 100
const GUESSED_WITHIN = { hours: 1 }
const LONGEST_WAIT_SECONDS = 60
const FORGOTTEN_AFTER = { hours: 24 }

/** From where somebody tries: the mark that `knownBrowser` gave the browser, and the network. */
export interface From {
  known: string | undefined
  network: string
}

/**
 * Whose attempts are counted together: those with one mail address from one network, so that guessing elsewhere never
 * keeps the person out; a browser that has signed in with it before is counted by itself, wherever it is.
 */
export function whoHash(secretKey: string, email: string, from: From): string {
  const address = addressOf(email)
  const apart = isKnown(secretKey, email, from.known) ? from.known!.split('.')[0] : `from ${from.network}`
  return linkToken(secretKey, 'sign-in attempts', `${address}\n${apart}`)
}

/** All attempts at one thing together: strangers' at a mail address, or those at the current password of an account. */
export function togetherHash(secretKey: string, at: string): string {
  return linkToken(secretKey, 'sign-in attempts', addressOf(at))
}

/** Whether the browser has signed in with this mail address before. */
export function isKnown(secretKey: string, email: string, known: string | undefined): boolean {
  const [nonce, mark] = (known ?? '').split('.')
  return Boolean(nonce && mark && sameSecret(mark, knownMark(secretKey, addressOf(email), nonce)))
}

/** How many attempts there are before waiting; fewer for strangers while many of them guess, from wherever. */
export async function freeAttempts(
  db: Kysely<Database>,
  strangers: string | undefined,
  now: Temporal.Instant,
): Promise<number> {
  if (!strangers) return FREE_ATTEMPTS
  const row = await db
    .selectFrom('sign_in_failure')
    .select('failures')
    .where('who_hash', '=', strangers)
    .where('last_at', '>', now.subtract(GUESSED_WITHIN).toString())
    .executeTakeFirst()
  return row && row.failures > MANY_GUESSES ? 1 : FREE_ATTEMPTS
}

/** Counts one more guess of all strangers together, begun anew once there was none for an hour; gives how many there are. */
export async function countGuess(
  db: Kysely<Database>,
  strangers: string,
  now: Temporal.Instant,
): Promise<number> {
  const at = now.toString()
  const before = now.subtract(GUESSED_WITHIN).toString()
  const counted = await sql<{ failures: number }>`
    insert into sign_in_failure as f (who_hash, failures, last_at) values (${strangers}, 1, ${at}::timestamptz)
    on conflict (who_hash) do update set
      failures = case when f.last_at < ${before}::timestamptz then 1 else least(f.failures, 1000000) + 1 end,
      last_at = excluded.last_at
    returning failures`.execute(db)
  return counted.rows[0]!.failures
}

/** What a browser keeps once somebody has signed in with it, to be told from a stranger's. */
export function knownBrowser(secretKey: string, email: string): string {
  const nonce = newNonce()
  return `${nonce}.${knownMark(secretKey, addressOf(email), nonce)}`
}

/**
 * Counts an attempt to sign in, unless it comes too soon after those that failed: then it isn't counted, and
 * the seconds to wait are given. One statement, so that attempts at the same moment go one after another.
 */
export async function countAttempt(
  db: Kysely<Database>,
  who: string,
  now: Temporal.Instant,
  free = FREE_ATTEMPTS,
): Promise<number> {
  const at = now.toString()
  const forgotten = now.subtract(FORGOTTEN_AFTER).toString()
  const counted = await sql`
    insert into sign_in_failure as f (who_hash, failures, last_at) values (${who}, 1, ${at}::timestamptz)
    on conflict (who_hash) do update set
      failures = case when f.last_at < ${forgotten}::timestamptz then 1 else f.failures + 1 end,
      last_at = excluded.last_at
    where f.failures < ${free}
      or f.last_at + least(${LONGEST_WAIT_SECONDS}::integer, power(2, least(f.failures, 30) - ${free}::integer))
        * interval '1 second' <= ${at}::timestamptz
    returning failures`.execute(db)
  return counted.rows.length > 0 ? 0 : secondsToWait(db, who, now, free)
}

/** Forgets what failed for one, and what failed for anybody long ago. */
export async function clearFailures(db: Kysely<Database>, who: string, now: Temporal.Instant): Promise<void> {
  const longAgo = now.subtract(FORGOTTEN_AFTER).toString()
  await db
    .deleteFrom('sign_in_failure')
    .where(eb => eb.or([eb('who_hash', '=', who), eb('last_at', '<', longAgo)]))
    .execute()
}

async function secondsToWait(
  db: Kysely<Database>,
  who: string,
  now: Temporal.Instant,
  free: number,
): Promise<number> {
  const row = await db
    .selectFrom('sign_in_failure')
    .select(['failures', 'last_at'])
    .where('who_hash', '=', who)
    .executeTakeFirst()
  if (!row) return 1
  const wait = Math.min(LONGEST_WAIT_SECONDS, 2 ** (row.failures - free))
  const passed = now.since(Temporal.Instant.from(row.last_at)).total('seconds')
  return Math.max(1, Math.ceil(wait - passed))
}

function addressOf(email: string): string {
  return email.trim().toLowerCase()
}

function knownMark(secretKey: string, address: string, nonce: string): string {
  return linkToken(secretKey, 'known browser', `${address}\n${nonce}`)
}
