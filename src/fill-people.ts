import { type Kysely, sql, type Transaction } from 'kysely'
import { findBusiness } from './business/queries.ts'
import type { Database } from './db/schema.ts'
import { keepMeasuredBeds, keepToldBeds } from './places/beds.ts'
import { customerKeys, keyedAs, placeKeys } from './places/recognition.ts'

/** So many rows are held at a time, so that nobody waits long for one of them. */
const BATCH = 200

/**
 * Fills what earlier releases didn't keep of customers and places: what they are recognised by, by today's rules and for
 * the country of the business, and the beds of requests as rows of their own. Done again, or by two at once, it comes to
 * the same. Gives how many rows were filled.
 */
export async function fillPeople(db: Kysely<Database>): Promise<number> {
  const business = await findBusiness(db)
  if (!business) return 0
  const { country } = business
  return (
    (await inBatches(db, trx => keyCustomers(trx, country))) +
    (await inBatches(db, trx => keyPlaces(trx, country))) +
    (await inBatches(db, fillBeds))
  )
}

async function inBatches(
  db: Kysely<Database>,
  fill: (trx: Transaction<Database>) => Promise<number>,
): Promise<number> {
  for (let filled = 0; ; ) {
    const batch = await db.transaction().execute(fill)
    if (batch === 0) return filled
    filled += batch
  }
}

async function keyCustomers(trx: Transaction<Database>, country: string): Promise<number> {
  const rows = await trx
    .selectFrom('customer')
    .select(['id', 'phone', 'email'])
    .where('keyed_as', '<>', keyedAs(country))
    .limit(BATCH)
    .forUpdate()
    .skipLocked()
    .execute()
  const keyed = rows.map(row => ({ id: row.id, ...customerKeys(row, country) }))
  await sql`
    update customer set phone_key = one.phone_key, email_key = one.email_key, keyed_as = one.keyed_as
    from jsonb_to_recordset(${JSON.stringify(keyed)}::jsonb)
      as one(id bigint, phone_key text, email_key text, keyed_as text)
    where customer.id = one.id`.execute(trx)
  return rows.length
}

async function keyPlaces(trx: Transaction<Database>, country: string): Promise<number> {
  const rows = await trx
    .selectFrom('place')
    .select(['id', 'street', 'postcode'])
    .where('keyed_as', '<>', keyedAs(country))
    .limit(BATCH)
    .forUpdate()
    .skipLocked()
    .execute()
  const keyed = rows.map(row => ({ id: row.id, ...placeKeys(row, country) }))
  await sql`
    update place set street_key = one.street_key, postcode_key = one.postcode_key, keyed_as = one.keyed_as
    from jsonb_to_recordset(${JSON.stringify(keyed)}::jsonb)
      as one(id bigint, street_key text, postcode_key text, keyed_as text)
    where place.id = one.id`.execute(trx)
  return rows.length
}

async function fillBeds(trx: Transaction<Database>): Promise<number> {
  const rows = await trx
    .selectFrom('quote_request')
    .select(['id', 'place_id', 'put_in_by', 'arrived_at', 'stage_at'])
    .select(['told', 'understood', 'measured', 'measured_understood'])
    .where(
      sql<boolean>`not exists (select 1 from request_bed where quote_request_id = quote_request.id)
        and jsonb_array_length(told->'beds') > 0`,
    )
    .orderBy('id')
    .limit(BATCH)
    .forUpdate('quote_request')
    .skipLocked()
    .execute()
  for (const { id, place_id, put_in_by, told, understood, measured, ...row } of rows) {
    const beds = { requestId: id, placeId: place_id, told, understood }
    await keepToldBeds(trx, beds, put_in_by, Temporal.Instant.from(row.arrived_at))
    if (measured) {
      const found = { ...beds, told: measured, understood: row.measured_understood }
      await keepMeasuredBeds(trx, found, await measuredAt(trx, id, row.stage_at))
    }
  }
  return rows.length
}

async function measuredAt(
  trx: Transaction<Database>,
  id: number,
  otherwise: string,
): Promise<Temporal.Instant> {
  const { at } = await trx
    .selectFrom('visit')
    .select(eb => eb.fn.max('done_at').as('at'))
    .where('quote_request_id', '=', id)
    .executeTakeFirstOrThrow()
  return Temporal.Instant.from(at ?? otherwise)
}
