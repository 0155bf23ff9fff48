import { type Kysely, type RawBuilder, sql } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { TableName, Via } from './tables.ts'

/** Whose rows are meant: the rows of one customer's group with their addresses and requests, or some requests alone. */
export interface People {
  customers: number[]
  places: number[]
  requests: number[]
}

/** All that a customer who heads a group is known by; locked within a transaction that is to change it. */
export async function peopleOf(db: Kysely<Database>, headId: number, isLocked = false): Promise<People> {
  const lock = isLocked ? sql`for update` : sql``
  const ids = async (query: RawBuilder<{ id: number }>) => (await query.execute(db)).rows.map(({ id }) => id)
  // Requests before customers, as whoever takes money in does.
  const requests = await ids(sql`
    select id from quote_request where customer_id in (select id from customer where head_id = ${headId})
    order by id ${lock}`)
  const customers = await ids(sql`select id from customer where head_id = ${headId} order by id ${lock}`)
  const places = await ids(
    sql`select id from place where customer_id = any(${customers}::bigint[]) order by id`,
  )
  return { customers, places, requests }
}

/** Whether a row of a table is one of theirs, as a condition. */
export function ofPeople(table: TableName, via: Via, { customers, places, requests }: People) {
  const among = (column: string, ids: number[]) => sql<boolean>`${sql.ref(column)} = any(${ids}::bigint[])`
  const below = (column: string, of: string) =>
    sql<boolean>`${sql.ref(column)} in (select id from ${sql.table(of)} where ${among('quote_request_id', requests)})`
  switch (via) {
    case 'itself':
      return among('id', table === 'customer' ? customers : table === 'place' ? places : requests)
    case 'customer':
      if (table !== 'customer_decision') return among('customer_id', customers)
      return sql<boolean>`(${among('one_id', customers)} or ${among('other_id', customers)})`
    case 'place':
      if (table !== 'place_decision') return among('place_id', places)
      return sql<boolean>`(${among('one_id', places)} or ${among('other_id', places)})`
    case 'request':
      return among('quote_request_id', requests)
    case 'quote':
      return below('quote_id', 'quote')
    case 'bill':
      return below('bill_id', 'bill')
    case 'closing':
      return below('closing_id', 'job_closing')
    case 'booking':
      return below('booking_id', 'booking')
    case 'order':
      return sql<boolean>`supply_order_id in (select supply_order_id from supply_order_job where ${among('quote_request_id', requests)})`
  }
}
