import type { Insertable, Kysely, Transaction } from 'kysely'
import type { PaymentTable } from '../db/schema/payments.ts'
import type { Database } from '../db/schema.ts'
import { cents, Decimal, sumOf } from '../lib/decimal.ts'

/** All money of a request as it changed hands, in turn; who noted it, and whether another row undid it. */
export async function findPayments(db: Kysely<Database>, quoteRequestId: number) {
  return db
    .selectFrom('payment')
    .innerJoin('account', 'account.id', 'payment.made_by')
    .leftJoin('payment as undoing', 'undoing.undoes', 'payment.id')
    .select(['payment.id', 'payment.nth', 'payment.kind', 'payment.amount', 'payment.day', 'payment.way'])
    .select(['payment.tip', 'payment.returned', 'payment.undoes', 'payment.made_at'])
    .select(['account.name as made_by_name', 'undoing.id as undone_by', 'undoing.returned as is_returned'])
    .where('payment.quote_request_id', '=', quoteRequestId)
    .orderBy('payment.nth')
    .execute()
}

/** What is held of a request: all that was paid less what was given back, '100.00'. */
export async function findHeld(db: Kysely<Database>, quoteRequestId: number): Promise<string> {
  const rows = await db
    .selectFrom('payment')
    .select('amount')
    .where('quote_request_id', '=', quoteRequestId)
    .execute()
  return heldOf(rows)
}

export function heldOf(rows: { amount: string }[]): string {
  return cents(sumOf(rows.map(({ amount }) => new Decimal(amount))))
}

export async function insertPayment(
  trx: Transaction<Database>,
  payment: Insertable<PaymentTable>,
): Promise<number> {
  const { id } = await trx.insertInto('payment').values(payment).returning('id').executeTakeFirstOrThrow()
  return id
}

/** What became of the deposit of an ended request; undefined while that is open. */
export async function findSettled(db: Kysely<Database>, quoteRequestId: number) {
  return db
    .selectFrom('deposit_settled')
    .select(['kept', 'back', 'settled_at'])
    .where('quote_request_id', '=', quoteRequestId)
    .executeTakeFirst()
}
