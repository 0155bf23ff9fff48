import type { Kysely, Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { type HomeownerMessage, putInOutbox } from '../outbox/outbox.ts'
import { findLinkPath, makeLink } from './links.ts'

/**
 * Puts a mail to the homeowner into the outbox, in the transaction that causes it; where no address is known, nothing.
 * With the first mail to an address that isn't confirmed goes the making of the link that confirms it.
 */
export async function mailHomeowner(
  trx: Transaction<Database>,
  deps: Deps,
  kind: HomeownerMessage,
  quoteRequestId: number,
  at: Temporal.Instant,
): Promise<void> {
  const { email, email_confirmed_at } = await requireAddress(trx, quoteRequestId)
  if (email === '') return
  const { secretKey } = deps
  if (!email_confirmed_at && !(await findLinkPath(trx, secretKey, 'email address', quoteRequestId))) {
    await makeLink(trx, secretKey, 'email address', quoteRequestId, at)
  }
  await putInOutbox(trx, deps.jobs, kind, 'homeowner', quoteRequestId, at)
}

/** The mail address of a request, '' where none is known, and when it was confirmed. */
export async function requireAddress(db: Kysely<Database>, quoteRequestId: number) {
  return db
    .selectFrom('quote_request')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .select(['quote_request.number', 'customer.email', 'customer.email_confirmed_at'])
    .where('quote_request.id', '=', quoteRequestId)
    .executeTakeFirstOrThrow()
}
