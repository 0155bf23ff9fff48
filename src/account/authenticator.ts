import type { Kysely, Transaction } from 'kysely'
import { Secret, TOTP } from 'otpauth'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { seal, unseal } from '../lib/sealed.ts'

/** One step of 30 seconds early or late: phones' clocks differ (RFC 6238, 5.2). */
const WINDOW = 1
const SECRET_BYTES = 20
const BEGUN_FOR = { hours: 1 }

/** An app's secret, as base32, and the address that its QR code holds. */
export interface AppSecret {
  secret: string
  address: string
}

/** Whether somebody has an app whose codes are asked for. */
export async function hasApp(db: Kysely<Database>, accountId: number): Promise<boolean> {
  const row = await findAuthenticator(db, accountId)
  return row?.on_at != null
}

async function findAuthenticator(db: Kysely<Database>, accountId: number) {
  return db
    .selectFrom('authenticator')
    .select(['sealed_secret', 'made_at', 'on_at'])
    .where('account_id', '=', accountId)
    .executeTakeFirst()
}

/** Begins to set an app up with a fresh secret, which asks for no code yet; nothing once one is on. */
export async function beginAuthenticator({ db, secretKey, now }: Deps, accountId: number): Promise<void> {
  const { base32 } = new Secret({ size: SECRET_BYTES })
  const begun = {
    sealed_secret: seal(secretKey, purposeOf(accountId), base32),
    made_at: now().toString(),
  }
  await db
    .insertInto('authenticator')
    .values({ account_id: accountId, ...begun })
    .onConflict(conflict =>
      conflict.column('account_id').doUpdateSet(begun).where('authenticator.on_at', 'is', null),
    )
    .execute()
}

/** The secret of an app that is being set up, for an hour; null where none is. */
export async function findBegun(
  { db, secretKey, now }: Deps,
  account: { id: number; email: string },
  business: string,
): Promise<AppSecret | null> {
  const row = await findAuthenticator(db, account.id)
  const since = now().subtract(BEGUN_FOR)
  if (!row || row.on_at || Temporal.Instant.compare(row.made_at, since) < 0) return null
  const secret = unseal(secretKey, purposeOf(account.id), row.sealed_secret)
  if (secret === null) return null
  const totp = new TOTP({ issuer: business || 'Bedwright', label: account.email, secret })
  return { secret, address: totp.toString() }
}

/**
 * Uses up a code of an account's app: each step once, and none before one that was used, which the database decides. With `turnsOn` it is the
 * first code of one that is being set up, and turns it on. Gives whether the code was right and new.
 */
export async function takeCode(
  { secretKey, now }: Pick<Deps, 'secretKey' | 'now'>,
  db: Kysely<Database>,
  accountId: number,
  code: string,
  turnsOn = false,
): Promise<boolean> {
  const row = await findAuthenticator(db, accountId)
  const secret = row && unseal(secretKey, purposeOf(accountId), row.sealed_secret)
  if (!row || !secret) return false
  const timestamp = now().epochMilliseconds
  const delta = new TOTP({ secret }).validate({ token: code, timestamp, window: WINDOW })
  if (delta === null) return false
  const step = TOTP.counter({ timestamp }) + delta
  const { numUpdatedRows } = await db
    .updateTable('authenticator')
    .set({ last_step: step, ...(turnsOn && { on_at: now().toString() }) })
    .where('account_id', '=', accountId)
    .where('sealed_secret', '=', row.sealed_secret)
    .where('on_at', turnsOn ? 'is' : 'is not', null)
    .where('last_step', '<', step)
    .executeTakeFirstOrThrow()
  return numUpdatedRows > 0n
}

/** Asks an account for codes of its app no more. */
export async function endAuthenticator(trx: Transaction<Database>, accountId: number): Promise<void> {
  await trx.deleteFrom('authenticator').where('account_id', '=', accountId).execute()
}

/** The same for everybody, and for recovery codes, as they were made with another key. Passkeys know nothing of it. */
export async function endAuthenticators(trx: Transaction<Database>): Promise<void> {
  await trx.deleteFrom('authenticator').execute()
  await trx.deleteFrom('recovery_code').execute()
}

const purposeOf = (accountId: number) => `authenticator ${accountId}`
