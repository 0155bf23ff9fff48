import { plainTerms } from '../../src/estimate/job/terms.ts'
import { makeQuote, type QuoteWanted } from '../../src/quotes/make-quote.ts'
import { newestRevision } from '../../src/quotes/queries.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import { requireRequestId } from '../../src/requests/queries.ts'
import type { TestApp } from './app.ts'
import type { Browser } from './people.ts'

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
    laborHours: null,
    terms: plainTerms,
    note: '',
    why: null,
  }
  await makeQuote(app.deps, accountId, id, { ...asWorkedOut, ...wanted })
  const bookingPath = await findLinkPath(app.db, app.deps.secretKey, 'booking', id)
  if (!bookingPath) throw new Error(`Request ${number} has no booking link`)
  return { id, revision, bookingPath }
}

/** The hidden fields of a request's quote page, as a browser sends them back. */
export async function hiddenFields(owner: Browser, number: string): Promise<Record<string, string>> {
  const page = await owner.get(`/queue/${number}/quote`)
  if (page.status !== 200) throw new Error(`The quote page answered ${page.status}`)
  const found = page.text.matchAll(/<input type="hidden" name="(\w+)" value="([^"]*)">/g)
  return Object.fromEntries([...found].map(([, name, typed]) => [name, typed]))
}

export function postQuote(owner: Browser, number: string, form: Record<string, string>) {
  return owner.post(`/queue/${number}/quote`).type('form').send(form)
}

/** Opens the quote page and sends its form with these fields. */
export async function confirmQuote(owner: Browser, number: string, form: Record<string, string>) {
  return postQuote(owner, number, { ...(await hiddenFields(owner, number)), ...form })
}
