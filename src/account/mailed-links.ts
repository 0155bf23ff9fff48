import { type Kysely, sql, type Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { hashSecret, linkToken, newNonce } from '../lib/tokens.ts'
import { type AccountMessage, countForAccount, putForAccount } from '../outbox/to-account.ts'
import { findAnyAccount } from './queries.ts'

export const LINK_LASTS = { minutes: 30 }

/** Where the link of each mail is kept, and how many may be written to one account within which time. */
const LINKS = {
  'password-link': { table: 'password_reset', most: 3, within: { hours: 1 } },
  'sign-in-link': { table: 'sign_in_link', most: 1, within: { hours: 24 } },
} as const

/** The token of a mailed link. */
function mailedToken(secretKey: string, kind: AccountMessage, nonce: string): string {
  return linkToken(secretKey, kind, nonce)
}

/**
 * Mails a link to an account, in place of the one before, unless enough were mailed. Where there is no account the same
 * is done of another one and taken back, so that no stranger learns from the time it takes whether there is one. Gives whether one goes out.
 */
export async function mailLink(
  deps: Deps,
  kind: AccountMessage,
  accountId: number | undefined,
): Promise<boolean> {
  const { db, jobs } = deps
  // The mail knows its link by the moment, so both have the same.
  const at = deps.now()
  return db.transaction().execute(async trx => {
    const anybody = await findAnyAccount(trx)
    const id = accountId ?? anybody?.id
    if (id === undefined) return false
    await lockForLink(trx, id)
    const { most, within } = LINKS[kind]
    const sent = await countForAccount(trx, kind, id, at.subtract(within))
    await sql`savepoint pretended`.execute(trx)
    await keepLink(trx, deps, kind, id, at)
    await putForAccount(trx, jobs, kind, id, at)
    const isMeant = accountId !== undefined && sent < most
    await sql.raw(isMeant ? 'release savepoint pretended' : 'rollback to savepoint pretended').execute(trx)
    return isMeant
  })
}

/** Makes an account's link anew; gives its token. */
export async function keepLink(
  trx: Transaction<Database>,
  { secretKey, now }: Deps,
  kind: AccountMessage,
  accountId: number,
  at: Temporal.Instant = now(),
): Promise<string> {
  const nonce = newNonce()
  const token = mailedToken(secretKey, kind, nonce)
  const link = {
    nonce,
    token_hash: hashSecret(token),
    made_at: at.toString(),
    ends_at: at.add(LINK_LASTS).toString(),
  }
  await trx
    .insertInto(LINKS[kind].table)
    .values({ account_id: accountId, ...link })
    .onConflict(conflict => conflict.column('account_id').doUpdateSet(link))
    .execute()
  return token
}

/** The token that a mail of then tells: null when it was used, has expired or another one came after it. */
export async function findToken(
  { db, secretKey, now }: Deps,
  kind: AccountMessage,
  accountId: number,
  madeAt: string,
): Promise<string | null> {
  const link = await db
    .selectFrom(LINKS[kind].table)
    .select('nonce')
    .where('account_id', '=', accountId)
    .where('made_at', '=', madeAt)
    .where('ends_at', '>', now().toString())
    .executeTakeFirst()
  return link?.nonce ? mailedToken(secretKey, kind, link.nonce) : null
}

/** Locks the account that a link is of, before anything of the link: whoever removes it locks it before its links too. */
export async function lockAccountOf(
  trx: Transaction<Database>,
  kind: AccountMessage,
  token: string,
): Promise<void> {
  await trx
    .selectFrom('account')
    .select('id')
    .where('id', 'in', links =>
      links.selectFrom(LINKS[kind].table).select('account_id').where('token_hash', '=', hashSecret(token)),
    )
    .forNoKeyUpdate()
    .execute()
}

/** Ends the links of an account, as its password is another one or it has ended. */
export async function endLinks(trx: Transaction<Database>, accountId: number): Promise<void> {
  for (const { table } of Object.values(LINKS))
    await trx.deleteFrom(table).where('account_id', '=', accountId).execute()
}

/** Ends every link that was made from the installation's key. */
export async function endKeysLinks(trx: Transaction<Database>): Promise<void> {
  for (const { table } of Object.values(LINKS))
    await trx.deleteFrom(table).where('nonce', 'is not', null).execute()
  await trx.deleteFrom('invitation').execute()
}

async function lockForLink(trx: Kysely<Database>, id: number) {
  await trx.selectFrom('account').select('id').where('id', '=', id).forNoKeyUpdate().execute()
}
