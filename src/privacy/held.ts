import type { Kysely, Transaction } from 'kysely'
import { requireBusiness } from '../business/queries.ts'
import type { Database } from '../db/schema.ts'
import { customerKeys } from '../places/recognition.ts'
import type { People } from './people.ts'

/** What is held as maybe junk with a phone or an email of these people: nobody's yet, and very likely theirs. The newest first. */
export async function findHeldOf(db: Kysely<Database>, { customers }: Pick<People, 'customers'>) {
  const keys = await db
    .selectFrom('customer')
    .select(['phone_key', 'email_key'])
    .where('id', 'in', customers)
    .execute()
  const known = new Set(keys.flatMap(({ phone_key, email_key }) => [phone_key, email_key]).filter(Boolean))
  if (known.size === 0) return []
  const { country } = await requireBusiness(db)
  const rows = await db
    .selectFrom('maybe_junk')
    .select(['id', 'number', 'arrived_at', 'sending'])
    .orderBy('id', 'desc')
    .execute()
  return rows.filter(({ sending }) => {
    const { phone_key, email_key } = customerKeys(sending, country)
    return known.has(phone_key) || known.has(email_key)
  })
}

/** Deletes it, with its photos and messages. */
export async function deleteHeldOf(
  trx: Transaction<Database>,
  people: Pick<People, 'customers'>,
): Promise<void> {
  const ids = (await findHeldOf(trx, people)).map(({ id }) => id)
  if (ids.length > 0) await trx.deleteFrom('maybe_junk').where('id', 'in', ids).execute()
}
