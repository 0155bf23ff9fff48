import type { FastifyReply } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { plainMailto } from '../lib/contact-links.ts'
import { dayOf } from '../lib/dates.ts'
import { findDecisions } from '../places/decisions.ts'
import { firmNotes } from '../places/firm-words.ts'
import { findFirm } from '../places/firms.ts'
import { findOffers, type Offer } from '../places/offers.ts'
import { requireHead } from '../places/queries.ts'
import { viewConsents } from './consents.ts'
import { type DecisionView, decisionInWords, type Known, viewKnown } from './known.ts'
import { findCustomers, findPlaces, findRequests } from './queries.ts'

export interface CustomerPage {
  id: number
  name: string
  /** Each once, as told last. */
  names: string[]
  phones: string[]
  emails: { words: string; address: string | null }[]
  places: { id: number; words: string }[]
  /** What is agreed with a firm. */
  firm: string[]
  known: Known
  offers: Offer[]
  decisions: DecisionView[]
  /** What was said of offers, newest first. */
  consents: { words: string; what: string; when: string }[]
  isQuiet: boolean
  ways: { value: string; label: string }[]
  values?: Typed
  errors?: Errors
}

/**
 * The page of a customer with all that is joined to them; of one that is joined to another it is the other's.
 * @throws {NotFound} when there is none
 */
export async function showCustomer(
  deps: Deps,
  reply: FastifyReply,
  id: number,
  again: { typed?: Typed; errors?: Errors } = {},
): Promise<FastifyReply> {
  const head = await requireHead(deps.db, 'customer', id)
  if (head !== id) return reply.redirect(`/customers/${head}`, 303)
  const business = await requireBusiness(deps.db)
  const rows = await findCustomers(deps.db, id)
  if (rows.every(({ erased_at }) => erased_at !== null)) return reply.redirect(`/customers/${id}/erase`, 303)
  const places = await findPlaces(deps.db, 'customer', id)
  const requests = await findRequests(deps.db, 'customer', id)
  const offers = await findOffers(deps.db, 'customer', id)
  const decisions = await findDecisions(deps.db, 'customer', id)
  return reply.page(
    'people/customer',
    {
      id,
      name: rows[0]!.name,
      names: once(rows.map(({ name }) => name)),
      phones: oneSpelling(rows.map(({ phone, phone_key }) => [phone_key, phone])),
      emails: oneSpelling(rows.map(({ email, email_key }) => [email_key, email])).map(email => ({
        words: email,
        address: plainMailto(email),
      })),
      places: placesOnce(places),
      firm: firmNotes(await findFirm(deps.db, id), dayOf(deps.now(), business.time_zone)),
      known: await viewKnown(deps, business, requests),
      offers,
      decisions: decisions.map(row => decisionInWords(row, business)),
      consents: await viewConsents(deps.db, id, business.time_zone),
      isQuiet: rows.some(({ quiet_since }) => quiet_since !== null),
      ways: [
        { value: 'mail', label: 'By email' },
        { value: 'text', label: 'By text' },
      ],
      values: again.typed ?? {},
      errors: again.errors ?? {},
    },
    again.errors ? 422 : 200,
  )
}

function placesOnce(rows: Awaited<ReturnType<typeof findPlaces>>): CustomerPage['places'] {
  const newest = new Map<number, string>()
  for (const { head_id, street, postcode } of rows)
    if (!newest.has(head_id)) newest.set(head_id, [street, postcode].filter(Boolean).join(', '))
  return [...newest].map(([id, words]) => ({ id, words: words || 'No address yet' }))
}

// As it was told last, of all that are recognized as one.
function oneSpelling(told: [key: string | null, text: string][]): string[] {
  return once([...new Map(told.reverse().map(([key, text]) => [key ?? text, text])).values()].reverse())
}

/** Each text once, those that are empty left out. */
export function once(texts: string[]): string[] {
  return [...new Set(texts)].filter(Boolean)
}
