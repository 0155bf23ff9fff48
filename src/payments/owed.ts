import { type Kysely, sql, type Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import { Decimal } from '../lib/decimal.ts'
import { type LockedRequest, moveTo } from '../requests/stage.ts'

/** What is owed of a request by its bills, fees and payments; below zero what is to be given back. */
export async function findOwed(db: Kysely<Database>, quoteRequestId: number): Promise<Decimal> {
  const { rows } = await sql<{ owed: string }>`select money_owed(${quoteRequestId}) as owed`.execute(db)
  return new Decimal(rows[0]!.owed)
}

/** Moves a billed request to paid once nothing is owed either way, and back when something is; others stay as they are. */
export async function followMoney(
  trx: Transaction<Database>,
  { id, number }: Pick<LockedRequest, 'id' | 'number'>,
  at: Temporal.Instant,
): Promise<void> {
  const { stage } = await trx
    .selectFrom('quote_request')
    .select('stage')
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  if (stage !== 'billed' && stage !== 'paid') return
  const next = (await findOwed(trx, id)).isZero() ? 'paid' : 'billed'
  if (next !== stage) await moveTo(trx, { id, number, stage }, next, at)
}

/** What a customer keeps with the business, by all rows of the group: '25.00'. */
export async function findCredit(db: Kysely<Database>, quoteRequestId: number): Promise<string> {
  const { rows } = await sql<{ credit: string }>`
    select coalesce(-sum(payment.amount), 0)::numeric(12,2) as credit from payment
      join quote_request on quote_request.id = payment.quote_request_id
      join customer on customer.id = quote_request.customer_id
    where payment.way = 'credit' and customer.head_id = (select head_id from customer
      join quote_request on quote_request.customer_id = customer.id where quote_request.id = ${quoteRequestId})`.execute(
    db,
  )
  return rows[0]!.credit
}
