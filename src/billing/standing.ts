import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import { cents, Decimal, sumOf } from '../lib/decimal.ts'
import { findOwed } from '../payments/owed.ts'
import { findPayments } from '../payments/queries.ts'
import { findFees } from '../payments/returned-check.ts'

/** How the money of a request stands beside its bill: what came in, fees, and what is owed; below zero too much came. */
export interface MoneyStanding {
  paid: string
  fees: string
  owed: string
}

export async function findMoney(db: Kysely<Database>, quoteRequestId: number): Promise<MoneyStanding> {
  const sum = (rows: { amount: string }[]) => cents(sumOf(rows.map(({ amount }) => new Decimal(amount))))
  return {
    paid: sum(await findPayments(db, quoteRequestId)),
    fees: sum(await findFees(db, quoteRequestId)),
    owed: cents(await findOwed(db, quoteRequestId)),
  }
}
