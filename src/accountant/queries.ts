import { type Kysely, sql } from 'kysely'
import type { Database } from '../db/schema.ts'

/** From the first to the last day, 'YYYY-MM-DD'. */
export interface Period {
  from: string
  to: string
}

/** Bills and credit memos up to a day, in the order of their numbers. */
export async function findBillsUntil(db: Kysely<Database>, to: string) {
  return db
    .selectFrom('bill')
    .innerJoin('quote_request', 'quote_request.id', 'bill.quote_request_id')
    .leftJoin('bill as undone', 'undone.id', 'bill.undoes')
    .selectAll('bill')
    .select(['quote_request.number as request_number', 'undone.number as cancels'])
    .where('bill.day', '<=', to)
    .orderBy('bill.kind')
    .orderBy('bill.year')
    .orderBy('bill.nth')
    .execute()
}

export async function findLinesWithin(db: Kysely<Database>, { from, to }: Period) {
  return db
    .selectFrom('bill_line')
    .innerJoin('bill', 'bill.id', 'bill_line.bill_id')
    .select(['bill.number', 'bill_line.position', 'bill_line.kind', 'bill_line.words'])
    .select(['bill_line.quantity', 'bill_line.amount'])
    .where('bill.day', '>=', from)
    .where('bill.day', '<=', to)
    .orderBy('bill.kind')
    .orderBy('bill.year')
    .orderBy('bill.nth')
    .orderBy('bill_line.position')
    .execute()
}

/** Money up to a day, in the order in which it was noted. */
export async function findPaymentsUntil(db: Kysely<Database>, to: string) {
  return db
    .selectFrom('payment')
    .innerJoin('quote_request', 'quote_request.id', 'payment.quote_request_id')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .innerJoin('account', 'account.id', 'payment.made_by')
    .select(['payment.quote_request_id', 'payment.day', 'payment.kind', 'payment.way', 'payment.amount'])
    .select(['payment.tip', 'payment.undoes', 'payment.returned', 'account.name as noted_by'])
    .select(['quote_request.number as request_number', 'customer.name', 'customer.head_id'])
    .where('payment.day', '<=', to)
    .orderBy('payment.day')
    .orderBy('payment.id')
    .execute()
}

export async function findFeesWithin(db: Kysely<Database>, { from, to }: Period) {
  return db
    .selectFrom('fee')
    .innerJoin('quote_request', 'quote_request.id', 'fee.quote_request_id')
    .select(['fee.day', 'fee.amount', 'quote_request.number as request_number'])
    .where('fee.day', '>=', from)
    .where('fee.day', '<=', to)
    .orderBy('fee.id')
    .execute()
}

/** What was bought for work days, not what was taken from on hand. */
export async function findPurchasesWithin(db: Kysely<Database>, { from, to }: Period) {
  return db
    .selectFrom('load_got')
    .innerJoin('account', 'account.id', 'load_got.made_by')
    .select(['bought_at', 'day', 'slug', 'pack', 'units', 'paid', 'delivered', 'account.name as noted_by'])
    .where('on_hand_id', 'is', null)
    .where('undone_at', 'is', null)
    .where('day', '>=', from)
    .where('day', '<=', to)
    .orderBy('bought_at')
    .orderBy('day')
    .orderBy('load_got.id')
    .execute()
}

/** What was settled of deposits up to a day where the business is. */
export async function findSettledUntil(db: Kysely<Database>, to: string, zone: string) {
  const { rows } = await sql<{
    quote_request_id: number
    number: string
    day: string
    kept: string
    back: string
  }>`
    select quote_request_id, number, (settled_at at time zone ${zone})::date as day, kept, back
    from deposit_settled join quote_request on quote_request.id = quote_request_id
    where (settled_at at time zone ${zone})::date <= ${to}::date order by settled_at, quote_request_id`.execute(
    db,
  )
  return rows
}
