import type { FastifyReply } from 'fastify'
import { type Business, requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { t } from '../language/catalogue.ts'
import { rangeInWords } from '../language/money-in-words.ts'
import { sms } from '../lib/contact-links.ts'
import { dayOf } from '../lib/dates.ts'
import { findPeople } from '../places/of-request.ts'
import type { Offer } from '../places/offers.ts'
import { requireStanding } from '../rates/standing.ts'
import { type BedView, viewBeds } from '../requests/bed-view.ts'
import { findLastBeds } from '../requests/last-beds.ts'
import { findLinkPath } from '../requests/links.ts'
import { finishChoices } from '../requests/put-in-form.ts'
import { type RequestRow, requireRequest } from '../requests/queries.ts'

/** What comes after a request was put in: who it may be, the same beds as last time, a link to text. */
export interface PutInDonePage {
  number: string
  customer: string
  customerId: number
  range: string | null
  beds: (BedView | null)[]
  /** Whether beds are still to be added, or were typed in vain. */
  wantsBeds: boolean
  /** Others who may be the same, each with the request that has the beds of last time. */
  offers: Offer[]
  /** What is agreed with them, where they are a firm that is known. */
  firmNotes: string[]
  /** Of the customer themselves, once they are known. */
  bedsOf: string | null
  link: { words: string; sms: string | null } | null
  finishes: { value: string; label: string }[]
  values: Typed
}

/**
 * The page of a request that was put in, as long as that is new; later it leads to the request.
 * @throws {NotFound} when there is none
 */
export async function showPutIn(
  deps: Deps,
  reply: FastifyReply,
  number: string,
  again?: { typed: Typed; errors: Errors; status?: number },
): Promise<FastifyReply> {
  const wanted = await requireRequest(deps.db, number)
  if (!again && !mayAddBeds(wanted)) return reply.redirect(`/queue/${number}`, 303)
  const business = await requireBusiness(deps.db)
  const { rates } = await requireStanding(deps)
  const people = await findPeople(deps.db, wanted, dayOf(deps.now(), business.time_zone))
  const wantsBeds = wanted.told.beds.length === 0
  const bedsOf = async (customerId: number) =>
    wantsBeds ? ((await findLastBeds(deps.db, customerId, wanted.place_id))?.before ?? null) : null
  const page: PutInDonePage = {
    number,
    customer: wanted.customer_name,
    customerId: people.customerId,
    firmNotes: people.firm?.notes ?? [],
    range:
      wanted.low !== null && wanted.high !== null
        ? rangeInWords(wanted.low, wanted.high, business.currency)
        : null,
    beds: viewBeds(wanted, rates.body, 'en'),
    wantsBeds: wantsBeds || again?.typed.beds !== undefined,
    offers: await Promise.all(
      people.offers.map(async offer => ({ ...offer, bedsOf: await bedsOf(offer.id) })),
    ),
    bedsOf: await bedsOf(people.customerId),
    link: await linkToText(deps, business, wanted),
    finishes: finishChoices(rates.body),
    values: again?.typed ?? {},
  }
  const data = { ...page, errors: again?.errors ?? {}, scripts: ['copy.js'], here: `/put-in/${number}` }
  return reply.page('people/put-in', data, again ? (again.status ?? 422) : 200)
}

/** Whether a request is as new as when it was put in. */
export function mayAddBeds({ stage }: Pick<RequestRow, 'stage'>): boolean {
  return stage === 'new' || stage === 'visit set'
}

async function linkToText(
  deps: Deps,
  business: Business,
  wanted: RequestRow,
): Promise<PutInDonePage['link']> {
  const path = await findLinkPath(deps.db, deps.secretKey, 'own page', wanted.id)
  if (!path) return null
  const words = t(wanted.customer_language, 'own.text', {
    name: wanted.customer_name,
    business: business.name,
    number: wanted.number,
    link: deps.config.publicUrl + path,
  })
  return { words, sms: sms(wanted.phone, words) }
}
