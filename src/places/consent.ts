import { type Kysely, sql, type Transaction } from 'kysely'
import type { Way } from '../db/schema/letters.ts'
import type { Database } from '../db/schema.ts'

/** Who says that a customer wants offers, or doesn't any more. */
type Doer = { kind: 'homeowner' } | { kind: 'staff'; accountId: number }

/** Whether they agreed or take it back, when, and by what words. */
export interface Consenting {
  given: boolean
  at: Temporal.Instant
  doer: Doer
  words: string
}

/** Writes down what customers say of offers one way. */
export async function recordConsent(
  trx: Transaction<Database>,
  customerIds: number[],
  way: Way,
  { given, at, doer, words }: Consenting,
): Promise<void> {
  if (customerIds.length === 0) return
  const row = {
    way,
    given,
    at: at.toString(),
    by_kind: doer.kind,
    account_id: doer.kind === 'staff' ? doer.accountId : null,
    words,
  }
  await trx
    .insertInto('consent')
    .values(customerIds.map(customer_id => ({ customer_id, ...row })))
    .execute()
}

/** The customers with consent that stands, of these; all of them unless some are named. */
export async function findConsenting(
  db: Kysely<Database>,
  way: Way,
  customerIds?: number[],
): Promise<number[]> {
  const rows = await db
    .selectFrom('consent')
    .select('customer_id')
    .distinctOn('customer_id')
    .select('given')
    .where('way', '=', way)
    .$if(customerIds !== undefined, query => query.where('customer_id', 'in', customerIds!))
    .orderBy('customer_id')
    .orderBy('id', 'desc')
    .execute()
  return rows.filter(({ given }) => given).map(({ customer_id }) => customer_id)
}

/** Takes consent back of all who are reached at the same address that way. Gives whether any stood. */
export async function withdrawConsent(
  trx: Transaction<Database>,
  customerId: number,
  way: Way,
  consenting: Omit<Consenting, 'given'>,
): Promise<boolean> {
  const alike = await findReachedAlike(trx, customerId, way)
  const standing = alike.length > 0 ? await findConsenting(trx, way, alike) : []
  await recordConsent(trx, standing, way, { ...consenting, given: false })
  return standing.length > 0
}

/** The customers who are reached at the same mail address or phone, and those of the same group. */
async function findReachedAlike(trx: Transaction<Database>, customerId: number, way: Way): Promise<number[]> {
  const same =
    way === 'mail'
      ? sql<boolean>`lower(other.email) = lower(customer.email) and customer.email <> ''`
      : sql<boolean>`right(regexp_replace(other.phone, '\\D', '', 'g'), 10)
          = right(regexp_replace(customer.phone, '\\D', '', 'g'), 10) and customer.phone <> ''`
  const { rows } = await sql<{ id: number }>`
    select other.id from customer join customer as other
      on other.head_id = customer.head_id or (${same})
    where customer.id = ${customerId} order by other.id`.execute(trx)
  return rows.map(({ id }) => id)
}

/** Leaves a customer's group in peace from now on, or not any more; gives whether that is new. */
export async function setQuiet(
  trx: Transaction<Database>,
  customerId: number,
  at: Temporal.Instant | null,
): Promise<boolean> {
  const { numUpdatedRows } = await trx
    .updateTable('customer')
    .set({ quiet_since: at?.toString() ?? null })
    .where('head_id', '=', eb =>
      eb.selectFrom('customer as one').select('one.head_id').where('one.id', '=', customerId),
    )
    .where('quiet_since', at ? 'is' : 'is not', null)
    .executeTakeFirst()
  return numUpdatedRows > 0n
}
