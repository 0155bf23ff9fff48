import type { FastifyReply } from 'fastify'
import { type Business, requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { FORMAT, upToDate } from '../estimate/understood/format.ts'
import { findDecisions } from '../places/decisions.ts'
import { findOffers, type Offer } from '../places/offers.ts'
import { requireHead } from '../places/queries.ts'
import { requireStanding } from '../rates/standing.ts'
import { type BedView, viewBeds } from '../requests/bed-view.ts'
import { once } from './customer-page.ts'
import { type DecisionView, dayOfMoment, decisionInWords, type Known, viewKnown } from './known.ts'
import { type BedRow, findBeds, findPlaces, findRequests } from './queries.ts'

/** Beds that one request told of last, as they are known now. */
export interface BedsKnown {
  number: string | null
  beds: (BedView | null)[]
  /** Where each comes from: 'measured Mar 4'. */
  from: string[]
}

export interface PlacePage {
  id: number
  address: string
  addresses: string[]
  gates: string[]
  dogs: string[]
  customers: { id: number; name: string }[]
  /** By the request that told of them last, the newest first. */
  beds: BedsKnown[]
  known: Known
  offers: Offer[]
  decisions: DecisionView[]
}

/**
 * The page of a place with all that is joined to it; of one that is joined to another it is the other's.
 * @throws {NotFound} when there is none
 */
export async function showPlace(deps: Deps, reply: FastifyReply, id: number): Promise<FastifyReply> {
  const head = await requireHead(deps.db, 'place', id)
  if (head !== id) return reply.redirect(`/places/${head}`, 303)
  const business = await requireBusiness(deps.db)
  const rows = await findPlaces(deps.db, 'place', id)
  const requests = await findRequests(deps.db, 'place', id)
  const offers = await findOffers(deps.db, 'place', id)
  const decisions = await findDecisions(deps.db, 'place', id)
  const addresses = once(rows.map(({ street, postcode }) => [street, postcode].filter(Boolean).join(', ')))
  return reply.page('people/place', {
    id,
    address: addresses[0] ?? 'No address yet',
    addresses,
    gates: once(rows.map(({ gate }) => gate)),
    dogs: once(rows.map(({ dog }) => dog)),
    customers: [...new Map(rows.map(row => [row.customer_head_id, row.customer_name]))].map(
      ([one, name]) => ({
        id: one,
        name,
      }),
    ),
    beds: await viewKnownBeds(deps, business, await findBeds(deps.db, id)),
    known: await viewKnown(deps, business, requests),
    offers,
    decisions: decisions.map(row => decisionInWords(row, business)),
  })
}

async function viewKnownBeds(deps: Deps, business: Business, rows: BedRow[]): Promise<BedsKnown[]> {
  const { rates } = await requireStanding(deps)
  const byRequest = Map.groupBy(rows, ({ request_id }) => request_id)
  return [...byRequest.values()].map((beds, nth) => {
    const told = { beds: beds.map(bed => bed.measured ?? bed.told), extras: [], postcode: '' }
    const stopOf = new Map(beds.flatMap(({ stop }) => (stop ? [[stop.id, stop] as const] : [])))
    const read = beds.map(({ measured, measured_understood, understood }) => {
      const stored = measured ? measured_understood : understood
      return stored && upToDate(stored).beds[0]
    })
    const known = read.flatMap(bed => (bed ? [bed] : []))
    const understood = { format: FORMAT, beds: known, extras: [], postcode: '' }
    const views = viewBeds({ told, understood }, rates.body, 'en', `known-${nth + 1}`)
    let at = 0
    return {
      number: beds[0]!.number,
      beds: read.map((bed, index) => {
        const view = bed ? views[at++] : undefined
        const stop = stopOf.get(beds[index]!.stop?.id)
        return view ? { ...view, ...(stop && { stop }) } : null
      }),
      from: beds.map(bed => fromInWords(bed, business.time_zone)),
    }
  })
}

function fromInWords({ measured_at, source, made_at }: BedRow, zone: string): string {
  if (measured_at) return `measured ${dayOfMoment(measured_at, zone)}`
  const told = { homeowner: 'described', staff: 'put in', visit: 'found on site', file: 'from a file' }[
    source
  ]
  return `${told} ${dayOfMoment(made_at, zone)}`
}
