import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import { firmNotes } from './firm-words.ts'
import { findFirm, findOrderNumber } from './firms.ts'
import { findJobCertificate, jobCertificateInWords } from './job-certificate.ts'
import { findOffers, type Offer } from './offers.ts'

/** Whose request it is: the heads of their groups, how many requests the customer has, and who may be the same. */
export interface PeopleOfRequest {
  customerId: number
  placeId: number
  requests: number
  /** The address of the place as it is known from other requests, where this one tells none; else null. */
  knownAddress: string | null
  offers: Offer[]
  /** What to keep in mind with a firm, and its number of the order; null for anybody else. */
  firm: { notes: string[]; needsOrder: boolean; orderNumber: string } | null
  /** How the certificate for this one job stands; null where there is none. */
  certificate: string | null
}

export async function findPeople(
  db: Kysely<Database>,
  of: { id: number; customer_head_id: number; place_head_id: number; street: string },
  today: string,
): Promise<PeopleOfRequest> {
  const { requests } = await db
    .selectFrom('quote_request')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .select(eb => eb.fn.countAll<number>().as('requests'))
    .where('customer.head_id', '=', of.customer_head_id)
    .executeTakeFirstOrThrow()
  const firm = await findFirm(db, of.customer_head_id)
  return {
    customerId: of.customer_head_id,
    placeId: of.place_head_id,
    requests,
    knownAddress: of.street === '' ? await findAddress(db, of.place_head_id) : null,
    offers: await findOffers(db, 'customer', of.customer_head_id),
    certificate: jobCertificateInWords(await findJobCertificate(db, of.id), today),
    firm: firm
      ? {
          notes: firmNotes(firm, today),
          needsOrder: firm.needs_order,
          orderNumber: await findOrderNumber(db, of.id),
        }
      : null,
  }
}

async function findAddress(db: Kysely<Database>, headId: number): Promise<string | null> {
  const row = await db
    .selectFrom('place')
    .select(['street', 'postcode'])
    .where('head_id', '=', headId)
    .where('street', '<>', '')
    .orderBy('id', 'desc')
    .executeTakeFirst()
  return row ? [row.street, row.postcode].filter(Boolean).join(', ') : null
}
