import type { Insertable, InsertObject, Kysely, Transaction } from 'kysely'
import type { CustomerTable, Database, PlaceTable } from '../db/schema.ts'

/** The next number of a year, as '26-0042'; holds the year's row until the transaction ends, so that none is given twice. */
export async function takeNumber(trx: Transaction<Database>, year: number): Promise<string> {
  const { last } = await trx
    .insertInto('request_year')
    .values({ year, last: 1 })
    .onConflict(conflict =>
      conflict.column('year').doUpdateSet(eb => ({ last: eb('request_year.last', '+', 1) })),
    )
    .returning('last')
    .executeTakeFirstOrThrow()
  return `${String(year % 100).padStart(2, '0')}-${String(last).padStart(4, '0')}`
}

export async function insertCustomer(
  trx: Transaction<Database>,
  row: Insertable<CustomerTable>,
): Promise<number> {
  const { id } = await trx.insertInto('customer').values(row).returning('id').executeTakeFirstOrThrow()
  return id
}

export async function insertPlace(trx: Transaction<Database>, row: Insertable<PlaceTable>): Promise<number> {
  const { id } = await trx.insertInto('place').values(row).returning('id').executeTakeFirstOrThrow()
  return id
}

export async function insertQuoteRequest(
  trx: Transaction<Database>,
  row: InsertObject<Database, 'quote_request'>,
): Promise<number> {
  const { id } = await trx.insertInto('quote_request').values(row).returning('id').executeTakeFirstOrThrow()
  return id
}

/** The quote request that a submission key has already made. */
export async function findBySubmissionKey(db: Kysely<Database>, key: string) {
  return db
    .selectFrom('quote_request')
    .select(['id', 'number'])
    .where('submission_key', '=', key)
    .executeTakeFirst()
}
