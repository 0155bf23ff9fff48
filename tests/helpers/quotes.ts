import { makeQuote, type QuoteWanted } from '../../src/queue/make-quote.ts'
import { newestRevision, requireRequestId } from '../../src/queue/queries.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import type { TestApp } from './app.ts'

/**
 * Makes the next quote for a request, without a visit, through the application's own verb; every line stays as
 * worked out unless told otherwise. Gives the path of the booking link.
 */
export async function quoteRequest(app: TestApp, number: string, wanted: Partial<QuoteWanted> = {}) {
  const { id: accountId } = await app.db
    .selectFrom('account')
    .select('id')
    .where('role', '=', 'owner')
    .executeTakeFirstOrThrow()
  const id = await requireRequestId(app.db, number)
  const revision = (await newestRevision(app.db, id)) + 1
  const asWorkedOut: QuoteWanted = {
    revision,
    basis: null,
    amounts: null,
    added: [],
    crewHours: null,
    note: '',
  }
  await makeQuote(app.deps, accountId, id, { ...asWorkedOut, ...wanted })
  const bookingPath = await findLinkPath(app.db, app.deps.secretKey, 'booking', id)
  if (!bookingPath) throw new Error(`Request ${number} has no booking link`)
  return { id, revision, bookingPath }
}
