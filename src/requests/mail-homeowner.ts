import type { Kysely, Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { QUIET } from '../outbox/given-up.ts'
import { type HomeownerMessage, WHEN_QUIET } from '../outbox/kinds.ts'
import { type Putting, putInOutbox } from '../outbox/outbox.ts'
import { isQuiet } from '../outbox/quiet.ts'
import { findLinkPath, makeLink } from './links.ts'

/**
 * Puts a message to the homeowner into the outbox, in the transaction that causes it: a mail where an address is known,
 * else a text, else nothing. With the first mail to an address that isn't confirmed goes the making of the link that confirms it.
 */
export async function mailHomeowner(
  trx: Transaction<Database>,
  deps: Deps,
  kind: HomeownerMessage,
  quoteRequestId: number,
  at: Temporal.Instant,
  given: Omit<Putting, 'way'> = {},
): Promise<void> {
  const { email, phone, email_confirmed_at, is_quiet } = await requireAddress(trx, quoteRequestId)
  const putting = { ...given, ...(is_quiet && !WHEN_QUIET.includes(kind) && { dropped: QUIET }) }
  if (email === '') {
    if (phone === '') return
    const asText = { ...putting, way: 'text' } as const
    return putInOutbox(trx, deps.jobs, kind, 'homeowner', quoteRequestId, at, asText)
  }
  const { secretKey } = deps
  if (!email_confirmed_at && !(await findLinkPath(trx, secretKey, 'email address', quoteRequestId))) {
    await makeLink(trx, secretKey, 'email address', quoteRequestId, at)
  }
  await putInOutbox(trx, deps.jobs, kind, 'homeowner', quoteRequestId, at, putting)
}

/** The mail address and the phone of a request, '' where none is known, and when the address was confirmed. */
export async function requireAddress(db: Kysely<Database>, quoteRequestId: number) {
  return db
    .selectFrom('quote_request')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .select(['quote_request.number', 'customer.email', 'customer.phone', 'customer.email_confirmed_at'])
    .select(isQuiet.as('is_quiet'))
    .where('quote_request.id', '=', quoteRequestId)
    .executeTakeFirstOrThrow()
}
