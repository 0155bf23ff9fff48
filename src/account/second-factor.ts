import type { Kysely, Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { FormFields } from '../http/form-fields.ts'

/** What was given besides the password: a code, as typed, or what the browser answered with a passkey; '' where nothing was. */
export interface Given {
  code: string
  passkey: string
}

/** Reads `code` and `passkey`, which the script of the page fills in. */
export function readGiven(fields: FormFields): Given {
  return { code: fields.text('code'), passkey: fields.secret('passkey') }
}

/** Whether somebody is asked for a code or a passkey besides the password. */
export async function asksForCode(db: Kysely<Database>, accountId: number): Promise<boolean> {
  const row = await db
    .selectNoFrom(eb => [
      eb
        .or([
          eb.exists(
            eb
              .selectFrom('authenticator')
              .select('account_id')
              .where('account_id', '=', accountId)
              .where('on_at', 'is not', null),
          ),
          eb.exists(eb.selectFrom('passkey').select('id').where('account_id', '=', accountId)),
        ])
        .as('asks'),
    ])
    .executeTakeFirstOrThrow()
  return Boolean(row.asks)
}

/** Makes whatever changes what an account is asked for go one after another. */
export async function lockSecondFactor(trx: Transaction<Database>, accountId: number): Promise<void> {
  await trx.selectFrom('account').select('id').where('id', '=', accountId).forUpdate().execute()
}

/** Asks an account for its password alone. */
export async function endSecondFactor(trx: Transaction<Database>, accountId: number): Promise<void> {
  await trx.deleteFrom('authenticator').where('account_id', '=', accountId).execute()
  await trx.deleteFrom('passkey').where('account_id', '=', accountId).execute()
  await endRecoveryCodes(trx, accountId)
}

/** Ends recovery codes where there is nothing left that they stand in for; gives whether that is so. */
export async function endRecoveryCodes(trx: Transaction<Database>, accountId: number): Promise<boolean> {
  if (await asksForCode(trx, accountId)) return false
  await trx.deleteFrom('recovery_code').where('account_id', '=', accountId).execute()
  return true
}
