import type { FastifyReply } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { momentInWords } from '../language/dates-in-words.ts'
import { dayOf } from '../lib/dates.ts'
import { findPastCustomers, findSentOffers, type PastCustomer } from './queries.ts'

/** The page from which an offer is made. */
export interface OffersPage {
  customers: PastCustomer[]
  /** Who is checked, by the customers' ids as text. */
  chosen: string[]
  /** When the last ones went out, in words. */
  sent: string[]
  values: Typed
  errors?: Errors
}

/** Shows who may get an offer; with what was typed and what is wrong, where that was refused. */
export async function showOffers(
  reply: FastifyReply,
  deps: Deps,
  again: { typed?: Typed; errors?: Errors; chosen?: string[] } = {},
): Promise<FastifyReply> {
  const business = await requireBusiness(deps.db)
  const customers = await findPastCustomers(deps.db, dayOf(deps.now(), business.time_zone))
  const sent = await findSentOffers(deps.db)
  const data: OffersPage = {
    customers,
    chosen: again.chosen ?? customers.map(({ customer_id }) => String(customer_id)),
    sent: sent.map(({ sent_at }) => momentInWords(sent_at!, business.time_zone, 'en')),
    values: { postalAddress: business.postal_address, wordsEn: '', wordsEs: '', ...again.typed },
    errors: again.errors ?? {},
  }
  return reply.page('offers/make', data, again.errors ? 422 : 200)
}
