import type { Insertable, Kysely, Transaction } from 'kysely'
import type { AccountTable } from '../db/schema/accounts.ts'
import type { Database } from '../db/schema.ts'
import type { Language } from '../language/language.ts'

export async function hasOwner(db: Kysely<Database>): Promise<boolean> {
  const row = await db.selectFrom('account').select('id').where('role', '=', 'owner').executeTakeFirst()
  return row !== undefined
}

export async function insertAccount(
  trx: Transaction<Database>,
  row: Insertable<AccountTable>,
): Promise<{ id: number }> {
  return trx.insertInto('account').values(row).returning('id').executeTakeFirstOrThrow()
}

/** The account of a mail address, in whatever case it is written; undefined when there is none any more. */
export async function findAccountByEmail(db: Kysely<Database>, email: string) {
  return db
    .selectFrom('account')
    .select(['id', 'role', 'password_hash'])
    .where(eb => eb.fn<string>('lower', ['email']), '=', email.toLowerCase())
    .where('ended_at', 'is', null)
    .executeTakeFirst()
}

/** Everybody who may be given something to do, the owner first. */
export async function findStaff(db: Kysely<Database>) {
  return db
    .selectFrom('account')
    .select(['id', 'name'])
    .where('ended_at', 'is', null)
    .orderBy(eb => eb('role', '=', 'owner'), 'desc')
    .orderBy('id')
    .execute()
}

/** Everybody but the owner, in the order in which they were added; `asks_more` is whether a code or a passkey is asked for. */
export async function findOthers(db: Kysely<Database>) {
  return db
    .selectFrom('account')
    .select(eb => [
      'id',
      'name',
      'email',
      'role',
      'account.made_at',
      eb
        .or([
          eb.exists(
            eb
              .selectFrom('authenticator')
              .select('account_id')
              .whereRef('account_id', '=', 'account.id')
              .where('on_at', 'is not', null),
          ),
          eb.exists(eb.selectFrom('passkey').select('id').whereRef('account_id', '=', 'account.id')),
        ])
        .as('asks_more'),
    ])
    .where('role', '<>', 'owner')
    .where('ended_at', 'is', null)
    .orderBy('id')
    .execute()
}

/** What is stored of an account's password; undefined when the account has ended. */
export async function findPasswordHash(db: Kysely<Database>, id: number): Promise<string | undefined> {
  const row = await db
    .selectFrom('account')
    .select('password_hash')
    .where('id', '=', id)
    .where('ended_at', 'is', null)
    .executeTakeFirst()
  return row?.password_hash
}

/** Of somebody who is asked for a code; undefined when the account has ended. */
export async function findForCode(db: Kysely<Database>, id: number) {
  return db
    .selectFrom('account')
    .select(['id', 'email', 'role', 'password_hash'])
    .where('id', '=', id)
    .where('ended_at', 'is', null)
    .executeTakeFirst()
}

/** Locks an account that still has this password, so that a change of it and a new session can't cross. */
export async function lockAccount(
  trx: Transaction<Database>,
  id: number,
  passwordHash: string,
): Promise<boolean> {
  const row = await trx
    .selectFrom('account')
    .select('id')
    .where('id', '=', id)
    .where('password_hash', '=', passwordHash)
    .where('ended_at', 'is', null)
    .forNoKeyUpdate()
    .executeTakeFirst()
  return row !== undefined
}

/** Notes the language in which somebody signs in. */
export async function noteLanguage(trx: Transaction<Database>, id: number, language: Language) {
  await trx.updateTable('account').set({ language }).where('id', '=', id).execute()
}

/** To whom a mail goes; undefined when the account has ended. */
export async function findMailTo(db: Kysely<Database>, id: number) {
  return db
    .selectFrom('account')
    .select(['id', 'name', 'email', 'language'])
    .where('id', '=', id)
    .where('ended_at', 'is', null)
    .executeTakeFirst()
}

/** Somebody who has an account, whoever it is; undefined before set-up. */
export async function findAnyAccount(db: Kysely<Database>): Promise<{ id: number } | undefined> {
  return db.selectFrom('account').select('id').where('role', '=', 'owner').executeTakeFirst()
}

/** Who hears of what the homeowners do; undefined before set-up. */
export async function findOwner(db: Kysely<Database>) {
  return db.selectFrom('account').select(['name', 'email']).where('role', '=', 'owner').executeTakeFirst()
}
