import { type Kysely, sql } from 'kysely'
import type { Database } from '../db/schema.ts'
import { linkToken, newNonce, sameSecret } from '../lib/tokens.ts'

const FREE_ATTEMPTS = 5
const LONGEST_WAIT_SECONDS = 300
const FORGOTTEN_AFTER = { hours: 24 }

/**
 * Whose attempts are counted together: all that try one mail address, but a browser that has signed in with
 * it before is counted by itself, so that a stranger's guessing never keeps the person out. `known` is what
 * `knownBrowser` gave that browser.
 */
export function whoHash(secretKey: string, email: string, known: string | undefined): string {
  const address = email.trim().toLowerCase()
  const [nonce, mark] = (known ?? '').split('.')
  const expected = nonce && knownMark(secretKey, address, nonce)
  const isKnown = expected && mark && sameSecret(mark, expected)
  return linkToken(secretKey, 'sign-in attempts', isKnown ? `${address}\n${nonce}` : address)
}

/** What a browser keeps once somebody has signed in with it, to be told from a stranger's. */
export function knownBrowser(secretKey: string, email: string): string {
  const nonce = newNonce()
  return `${nonce}.${knownMark(secretKey, email.trim().toLowerCase(), nonce)}`
}

/**
 * Counts an attempt to sign in, unless it comes too soon after those that failed: then it isn't counted, and
 * the seconds to wait are given. One statement, so that attempts at the same moment go one after another.
 */
export async function countAttempt(
  db: Kysely<Database>,
  who: string,
  now: Temporal.Instant,
): Promise<number> {
  const at = now.toString()
  const forgotten = now.subtract(FORGOTTEN_AFTER).toString()
  const counted = await sql`
    insert into sign_in_failure as f (who_hash, failures, last_at) values (${who}, 1, ${at}::timestamptz)
    on conflict (who_hash) do update set
      failures = case when f.last_at < ${forgotten}::timestamptz then 1 else f.failures + 1 end,
      last_at = excluded.last_at
    where f.failures < ${FREE_ATTEMPTS}
      or f.last_at + least(${LONGEST_WAIT_SECONDS}::integer, power(2, least(f.failures, 30) - ${FREE_ATTEMPTS}::integer))
        * interval '1 second' <= ${at}::timestamptz
    returning failures`.execute(db)
  return counted.rows.length > 0 ? 0 : secondsToWait(db, who, now)
}

/** Forgets what failed for one, and what failed for anybody long ago. */
export async function clearFailures(db: Kysely<Database>, who: string, now: Temporal.Instant): Promise<void> {
  const longAgo = now.subtract(FORGOTTEN_AFTER).toString()
  await db
    .deleteFrom('sign_in_failure')
    .where(eb => eb.or([eb('who_hash', '=', who), eb('last_at', '<', longAgo)]))
    .execute()
}

async function secondsToWait(db: Kysely<Database>, who: string, now: Temporal.Instant): Promise<number> {
  const row = await db
    .selectFrom('sign_in_failure')
    .select(['failures', 'last_at'])
    .where('who_hash', '=', who)
    .executeTakeFirst()
  if (!row) return 1
  const wait = Math.min(LONGEST_WAIT_SECONDS, 2 ** (row.failures - FREE_ATTEMPTS))
  const passed = now.since(Temporal.Instant.from(row.last_at)).total('seconds')
  return Math.max(1, Math.ceil(wait - passed))
}

function knownMark(secretKey: string, address: string, nonce: string): string {
  return linkToken(secretKey, 'known browser', `${address}\n${nonce}`)
}
