import type { Kysely } from 'kysely'
import { endAuthenticators } from './account/authenticator.ts'
import { endKeysLinks } from './account/mailed-links.ts'
import type { Database } from './db/schema.ts'
import { linkToken } from './lib/tokens.ts'
import { remakeLinks } from './requests/links.ts'
import { remakeMaybeJunkLinks } from './requests/maybe-junk/queries.ts'
import { KeyUnusable } from './secret-key.ts'

/** What the store keeps of the key, to know it again by: it gives neither the key nor a link away. */
const checkOf = (secretKey: string) => linkToken(secretKey, 'key check', 'this store')

/**
 * Holds the key against the one that the store's links are made from; a store that knows none yet takes this one.
 * @throws {KeyUnusable} when it is another one
 */
export async function requireStoresKey(db: Kysely<Database>, secretKey: string): Promise<void> {
  await db
    .insertInto('key_check')
    .values({ value: checkOf(secretKey) })
    .onConflict(conflict => conflict.doNothing())
    .execute()
  if (await isStoresKey(db, secretKey)) return
  throw new KeyUnusable(
    'This isn’t the key that this store’s links were made from. All instances must share one SECRET_KEY or one secret-key file. If you lost the right key, stop them all and switch to this one: npm run bedwright -- key replace',
  )
}

/** Whether it is the key that the store's links are made from; true while the store knows none. Changes nothing. */
export async function isStoresKey(db: Kysely<Database>, secretKey: string): Promise<boolean> {
  const known = await db.selectFrom('key_check').select('value').executeTakeFirst()
  return !known || known.value === checkOf(secretKey)
}

/**
 * Has the store take another key, when its own is lost: every standing link is made anew from it, so that the staff are
 * shown links that work, and those that homeowners hold open nothing any more. Calendars that the staff subscribe to are turned off, links mailed to them end. Codes from apps are asked for no more, as their secrets can't be read again. Sessions go on. No instance may be
 * running with the old key. Gives how many links there were; the same key again changes nothing.
 */
export async function replaceKey(db: Kysely<Database>, secretKey: string): Promise<number> {
  const value = checkOf(secretKey)
  return db.transaction().execute(async trx => {
    await trx
      .insertInto('key_check')
      .values({ value })
      .onConflict(conflict => conflict.column('only').doUpdateSet({ value }))
      .execute()
    await trx.deleteFrom('calendar_feed').execute()
    await endKeysLinks(trx)
    await endAuthenticators(trx)
    await remakeMaybeJunkLinks(trx, secretKey)
    return remakeLinks(trx, secretKey)
  })
}
