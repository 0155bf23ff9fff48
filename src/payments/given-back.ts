import type { Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { mailHomeowner } from '../requests/mail-homeowner.ts'

/** By what the receipt of money that went back is written once. */
export function givenBackOnce(paymentId: number): string {
  return `given-back ${paymentId}`
}

/** Has the customer sent a receipt of what was given back or kept as credit, in the transaction that notes it. */
export async function tellGivenBack(
  trx: Transaction<Database>,
  deps: Deps,
  quoteRequestId: number,
  paymentId: number,
  now: Temporal.Instant,
): Promise<void> {
  await mailHomeowner(trx, deps, 'given-back', quoteRequestId, now, { once: givenBackOnce(paymentId) })
}
