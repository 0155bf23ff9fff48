import { createHash } from 'node:crypto'
import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Job, Told } from '../estimate/job/bed.ts'
import { type Terms, termsTold } from '../estimate/job/terms.ts'
import { type Price, workOutPrice } from '../estimate/price/firm-price.ts'
import type { JobUnderstood } from '../estimate/understood/format.ts'
import { recordJob } from '../estimate/understood/record.ts'
import { bedsOf, jobStored, type Requested, withPostcode } from '../estimate/understood/stored.ts'
import { Conflict, Refusal } from '../http/errors.ts'
import { findRateTable, type RateTableVersion } from '../rates/queries.ts'

export interface Priced {
  rates: RateTableVersion
  /** The beds as measured, or as told where nothing was measured; as typed, for showing. */
  told: Told
  job: Job
  /** The job as it is stored. */
  understood: JobUnderstood
  price: Price
  terms: Terms
  /** Stands for the beds and the rates that the price was worked out from: alike only where both are. */
  basis: string
}

/**
 * Works out the price of a quote request at the rates in force now, from what was measured, else from what was told; on the
 * terms that follow from it where none are given, and then by the certificate `exempt`.
 * @throws {Refusal} 503 before set-up
 * @throws {Conflict} when there are no beds yet, or they cannot be read with these rates, as when a finish was taken out
 */
export async function priceRequest(
  db: Kysely<Database>,
  now: Temporal.Instant,
  request: Requested & { number: string; postcode: string },
  settled?: Terms,
  exempt = '',
): Promise<Priced> {
  const rates = await findRateTable(db, now)
  if (!rates) throw new Refusal(503, 'error.not-open')
  const beds = withPostcode(bedsOf(request), request.postcode)
  if (beds.told.beds.length === 0) throw new Conflict('requests.no-beds', { number: request.number })
  const reading = jobStored(beds, rates.body)
  if (!reading.ok) throw new Conflict('quote.unreadable', { number: request.number })
  const { job } = reading
  const terms = settled ?? { ...termsTold(job, rates.body), exempt }
  const understood = recordJob(job, rates.body.units)
  return {
    rates,
    told: beds.told,
    job,
    understood,
    price: workOutPrice(job, rates.body, terms),
    terms,
    basis: `${rates.version}-${createHash('sha256').update(JSON.stringify(understood)).digest('hex').slice(0, 16)}`,
  }
}
