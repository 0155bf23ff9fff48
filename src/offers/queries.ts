import { type Kysely, sql } from 'kysely'
import type { Way } from '../db/schema/letters.ts'
import type { Database } from '../db/schema.ts'

/** A form takes so many checked boxes. */
const MOST_AT_ONCE = 100

/** Somebody whose beds were done before and who agreed to offers: how they are reached, and by which request they are known. */
export interface PastCustomer {
  customer_id: number
  quote_request_id: number
  number: string
  name: string
  way: Way
}

/**
 * Past customers with consent that stands, each address once by the newest job: by mail where that is agreed to and the
 * address is confirmed, else as a text; the newest 100. None who wants to be left in peace.
 */
export async function findPastCustomers(db: Kysely<Database>, today: string): Promise<PastCustomer[]> {
  const agreed = (way: Way) => sql<boolean>`coalesce((select given from consent
    where consent.customer_id = customer.id and consent.way = ${way} order by consent.id desc limit 1), false)`
  const mails = sql<boolean>`customer.email <> '' and customer.email_confirmed_at is not null and ${agreed('mail')}`
  const { rows } = await sql<PastCustomer>`
    with past as (
      select quote_request.id, number, customer.id as customer_id, name,
        case when ${mails} then 'mail' else 'text' end as way,
        case when ${mails} then lower(email) else right(regexp_replace(phone, '\\D', '', 'g'), 10) end as address
      from quote_request join customer on customer.id = quote_request.customer_id
      where quote_request.junk_at is null
        and (stage in ('part done', 'done', 'paid') or (stage = 'booked' and exists (select from booking
          where booking.quote_request_id = quote_request.id and called_off_at is null and first_day < ${today}::date)))
        and not exists (select from customer as same
          where same.head_id = customer.head_id and same.quiet_since is not null)
        and (${mails} or (phone <> '' and ${agreed('text')})))
    select distinct on (way, address) customer_id, id as quote_request_id, number, name, way
    from past order by way, address, id desc`.execute(db)
  return rows.sort((a, b) => b.quote_request_id - a.quote_request_id).slice(0, MOST_AT_ONCE)
}

export async function findOffer(db: Kysely<Database>, id: number) {
  return db.selectFrom('offer').selectAll().where('id', '=', id).executeTakeFirst()
}

/** Who was chosen for an offer. */
export async function findRecipients(db: Kysely<Database>, offerId: number) {
  return db
    .selectFrom('offer_recipient')
    .innerJoin('customer', 'customer.id', 'offer_recipient.customer_id')
    .innerJoin('quote_request', 'quote_request.id', 'offer_recipient.quote_request_id')
    .select(['offer_recipient.customer_id', 'offer_recipient.quote_request_id', 'offer_recipient.way'])
    .select(['customer.name', 'quote_request.number', 'quote_request.language'])
    .where('offer_id', '=', offerId)
    .orderBy('offer_recipient.quote_request_id', 'desc')
    .execute()
}

/** The offers that went out, newest first. */
export async function findSentOffers(db: Kysely<Database>) {
  return db
    .selectFrom('offer')
    .select(['id', 'sent_at'])
    .where('sent_at', 'is not', null)
    .orderBy('id', 'desc')
    .limit(5)
    .execute()
}
