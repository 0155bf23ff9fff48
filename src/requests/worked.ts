import type { Transaction } from 'kysely'
import { json } from '../db/json.ts'
import type { Database } from '../db/schema.ts'
import { type Ballpark, narrowsUnasked, workOutBallpark } from '../estimate/ballpark/ballpark.ts'
import { MOST_BEDS_OF_STAFF, readTold } from '../estimate/reading/read-beds.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import type { JobUnderstood } from '../estimate/understood/format.ts'
import { recordJob } from '../estimate/understood/record.ts'
import { jobStored, type StoredBeds } from '../estimate/understood/stored.ts'
import { Refusal } from '../http/errors.ts'

/** More than a column of money holds. */
const MOST_MONEY = 9_999_999_999

/** What was understood of beds and their ballpark. */
export interface WorkedBeds {
  understood: JobUnderstood
  ballpark: Ballpark
}

/**
 * Beds as told with their ballpark, read by a rate table; where they were understood before, as then. Those of strangers
 * are fewer by the forms that they come by.
 * @throws {Refusal} 422 when they can't be read
 */
export function workOutBeds({ told, understood }: StoredBeds, table: RateTable): WorkedBeds {
  const reading = understood
    ? jobStored({ told, understood }, table)
    : readTold(told, table, { most: MOST_BEDS_OF_STAFF })
  if (!reading.ok) throw new Refusal(422, 'requests.beds-unreadable')
  const { job } = reading
  const ballpark = workOutBallpark(job, table, { narrower: narrowsUnasked(job.beds.length) })
  return { understood: recordJob(job, table.units), ballpark }
}

/**
 * Keeps the ballpark of a request, which has none yet.
 * @throws {Refusal} 422 when it is beyond all measure
 */
export async function insertBallpark(
  trx: Transaction<Database>,
  quoteRequestId: number,
  rateTableId: number,
  ballpark: Ballpark,
  now: Temporal.Instant,
): Promise<void> {
  const { low, likely, high } = ballpark.range
  refuseBeyondMeasure(ballpark)
  await trx
    .insertInto('ballpark')
    .values({
      quote_request_id: quoteRequestId,
      rate_table_id: rateTableId,
      method: ballpark.method,
      low,
      likely,
      high,
      result: json(ballpark),
      made_at: now.toString(),
    })
    .execute()
}

/** @throws {Refusal} 422 when a ballpark is beyond all measure */
export function refuseBeyondMeasure({ range }: Ballpark): void {
  if (Number(range.high) > MOST_MONEY) throw new Refusal(422, 'requests.too-large')
}
