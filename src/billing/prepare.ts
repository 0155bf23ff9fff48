import type { Kysely } from 'kysely'
import { requireBusiness } from '../business/queries.ts'
import type { BillTo } from '../db/schema/bills.ts'
import type { Database } from '../db/schema.ts'
import type { Language } from '../language/language.ts'
import { addDays, dayOf } from '../lib/dates.ts'
import { type Firm, findFirmOfRequest, findOrderNumber } from '../places/firms.ts'
import { exemptForJob, findJobCertificate, hasEnded } from '../places/job-certificate.ts'
import { findAcceptedQuote, type QuoteWithLines } from '../quotes/queries.ts'
import { findShares } from '../quotes/stop-shares.ts'
import { requireIdInForce, requireRateTable } from '../rates/queries.ts'
import { type AddedLine, type ComposedBill, composeBill } from './compose-bill.ts'
import { findWhatWasDone, type WhatWasDone } from './what-was-done.ts'

/** A bill as it would be made now: its lines, and all that stands around them. */
export interface PreparedBill extends ComposedBill {
  quote: QuoteWithLines
  rateTableId: number
  day: string
  due: string
  firm: Firm | undefined
  orderNumber: string
  billTo: BillTo
  place: string
  area: string
  language: Language
  done: WhatWasDone
}

/** Works a request's bill out as of now; undefined where no price was accepted. */
export async function prepareBill(
  db: Kysely<Database>,
  quoteRequestId: number,
  added: readonly AddedLine[],
  now: Temporal.Instant,
): Promise<PreparedBill | undefined> {
  const quote = await findAcceptedQuote(db, quoteRequestId)
  if (!quote) return undefined
  const business = await requireBusiness(db)
  const day = dayOf(now, business.time_zone)
  const rateTableId = await requireIdInForce(db, now)
  const who = await requireWho(db, quoteRequestId)
  const firm = await findFirmOfRequest(db, quoteRequestId)
  const done = await findWhatWasDone(db, quoteRequestId)
  const composed = composeBill({
    quote,
    shares: quote.job.stops ? await findShares(db, quote.id) : [],
    done: done.shares,
    added,
    postcode: who.postcode,
    exempt: await exemptOn(db, quoteRequestId, { quote, firm, day }),
    tables: await tablesOf(db, quote, rateTableId),
    showRates: business.show_rates,
  })
  const place = [who.street, who.postcode].filter(Boolean).join(', ')
  return {
    ...composed,
    ...{ quote, rateTableId, day, firm, place, done, area: who.postcode, language: who.language },
    due: addDays(day, firm?.days_to_pay ?? 0),
    orderNumber: await findOrderNumber(db, quoteRequestId),
    billTo: billTo(who, firm, place),
  }
}

async function tablesOf(db: Kysely<Database>, quote: QuoteWithLines, rateTableId: number) {
  const { body: now } = await requireRateTable(db, rateTableId)
  const { body } = await requireRateTable(db, quote.rate_table_id)
  return { quote: body, now }
}

/** The certificate that counts on a day: the one of the price while it is good, else the job's or the firm's own. */
async function exemptOn(
  db: Kysely<Database>,
  quoteRequestId: number,
  { quote, firm, day }: { quote: QuoteWithLines; firm: Firm | undefined; day: string },
): Promise<string> {
  const own = await findJobCertificate(db, quoteRequestId)
  const { exempt } = quote.terms
  const isGood = exempt !== '' && !hasEnded(own, firm, exempt, day)
  return isGood ? exempt : exemptForJob(own, firm, day)
}

function billTo(
  { name, email }: { name: string; email: string },
  firm: Firm | undefined,
  place: string,
): BillTo {
  return {
    name: firm?.bill_name || name,
    address: firm?.bill_address || place,
    email: firm?.bill_email || email,
  }
}

async function requireWho(db: Kysely<Database>, quoteRequestId: number) {
  return db
    .selectFrom('quote_request')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .innerJoin('place', 'place.id', 'quote_request.place_id')
    .select(['customer.name', 'customer.email', 'place.street', 'place.postcode', 'quote_request.language'])
    .where('quote_request.id', '=', quoteRequestId)
    .executeTakeFirstOrThrow()
}
