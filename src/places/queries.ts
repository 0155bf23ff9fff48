import { type Kysely, sql, type Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import { NotFound, Refusal } from '../http/errors.ts'
import { customerKeys, placeKeys } from './recognition.ts'

/** Takes a customer in as told, with what they are recognised by in a country (ISO 3166). Gives the id. */
export async function insertCustomer(
  trx: Transaction<Database>,
  told: { name: string; phone: string; email: string },
  country: string,
): Promise<number> {
  const row = { name: told.name, phone: told.phone, email: told.email, ...customerKeys(told, country) }
  const { id } = await trx.insertInto('customer').values(row).returning('id').executeTakeFirstOrThrow()
  return id
}

/** Takes a place in as told, with what it is recognised by. Gives the id. */
export async function insertPlace(
  trx: Transaction<Database>,
  customerId: number,
  told: { street: string; postcode: string; gate: string; dog: string },
  country: string,
): Promise<number> {
  const { street, postcode, gate, dog } = told
  const row = { customer_id: customerId, street, postcode, gate, dog, ...placeKeys(told, country) }
  const { id } = await trx.insertInto('place').values(row).returning('id').executeTakeFirstOrThrow()
  return id
}

/** Changes a customer's phone, and what it is recognised by. Gives whether it was another one. */
export async function updatePhone(
  trx: Transaction<Database>,
  customerId: number,
  phone: string,
  country: string,
): Promise<boolean> {
  const { phone_key, keyed_as } = customerKeys({ phone, email: '' }, country)
  const changed = await trx
    .updateTable('customer')
    .set({ phone, phone_key, keyed_as })
    .where('id', '=', customerId)
    .where('phone', '<>', phone)
    .executeTakeFirst()
  return changed.numUpdatedRows > 0n
}

export type Kind = 'customer' | 'place'

/**
 * Whom all of a group lead to, itself where it is joined to nobody.
 * @throws {NotFound} when there is none
 */
export async function requireHead(db: Kysely<Database>, kind: Kind, id: number): Promise<number> {
  // Beyond what an id can be it would be the database's fault.
  if (!Number.isSafeInteger(id)) throw new NotFound()
  const { rows } = await sql<{ head_id: number }>`
    select head_id from ${sql.table(kind)} where id = ${id}`.execute(db)
  if (!rows[0]) throw new NotFound()
  return rows[0].head_id
}

/**
 * Whom all of a customer's group lead to, while they aren't erased.
 * @throws {NotFound} when there is none
 * @throws {Refusal} 410 when they are erased
 */
export async function requireCustomer(db: Kysely<Database>, id: number): Promise<number> {
  const head = await requireHead(db, 'customer', id)
  const { erased_at } = await db
    .selectFrom('customer')
    .select('erased_at')
    .where('id', '=', head)
    .executeTakeFirstOrThrow()
  if (erased_at) throw new Refusal(410, 'error.erased')
  return head
}
