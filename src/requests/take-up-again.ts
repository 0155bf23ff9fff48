import { randomUUID } from 'node:crypto'
import type { Kysely, Transaction } from 'kysely'
import { requireBusiness } from '../business/queries.ts'
import { json } from '../db/json.ts'
import type { Stage } from '../db/schema/stages.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { narrowsUnasked, workOutBallpark } from '../estimate/ballpark/ballpark.ts'
import { jobStored } from '../estimate/understood/stored.ts'
import { Conflict } from '../http/errors.ts'
import { requireIdInForce, requireRateTable } from '../rates/queries.ts'
import { recordHistory } from './history.ts'
import { makeLink } from './links.ts'
import { insertQuoteRequest, takeNumber } from './queries.ts'
import { lockQuoteRequest } from './stage.ts'
import { insertBallpark } from './worked.ts'

/** What a photo of a request is, besides whose it is. */
const PHOTO = [
  'place',
  'words',
  'picture',
  'width',
  'height',
  'small',
  'small_width',
  'small_height',
  'bytes',
  'made_at',
] as const

/** The stages that are over, from which a request may be taken up again. */
export const OVER: readonly Stage[] = ['called off', 'not taken', "can't do", 'lapsed']

/**
 * Takes an ended request up again as a new one, with its customer, place, beds and photos: measured ones wait for their price,
 * others for a call. Its range is of the rates in force; where its beds can't be priced by those, it has the old one.
 * Taken up once before, it gives the request that came of that. Gives the number.
 * @throws {Conflict} when the request isn't over
 */
export async function takeUpAgain(deps: Deps, accountId: number, quoteRequestId: number): Promise<string> {
  return deps.db.transaction().execute(async trx => {
    const { stage, number: from } = await lockQuoteRequest(trx, quoteRequestId)
    const before = await findTakenUp(trx, quoteRequestId)
    if (before) return before
    if (!OVER.includes(stage)) throw new Conflict('error.stage', { number: from })
    const now = deps.now()
    const { time_zone } = await requireBusiness(trx)
    const number = await takeNumber(trx, now.toZonedDateTimeISO(time_zone).year)
    const id = await insertAgain(trx, quoteRequestId, number, now)
    await giveRange(trx, { from: quoteRequestId, to: id }, now)
    await makeLink(trx, deps.secretKey, 'own page', id, now)
    const doer = { kind: 'staff', accountId } as const
    await recordHistory(trx, id, doer, 'taken up again', now, { from })
    await recordHistory(trx, quoteRequestId, doer, 'taken up again as', now, { number })
    return number
  })
}

/** The number of the request that took an ended one up again. */
export async function findTakenUp(trx: Kysely<Database>, from: number): Promise<string | undefined> {
  const row = await trx
    .selectFrom('quote_request')
    .select('number')
    .where('taken_up_from', '=', from)
    .executeTakeFirst()
  return row?.number
}

async function insertAgain(
  trx: Transaction<Database>,
  from: number,
  number: string,
  now: Temporal.Instant,
): Promise<number> {
  const old = await trx
    .selectFrom('quote_request')
    .select(['customer_id', 'place_id', 'language', 'preferred_times', 'note', 'content_hash', 'given_to'])
    .select('sent_as')
    .select(['told', 'understood', 'measured', 'measured_understood'])
    .where('id', '=', from)
    .executeTakeFirstOrThrow()
  const id = await insertQuoteRequest(trx, {
    ...old,
    number,
    stage: old.measured ? 'measured' : 'new',
    stage_at: now.toString(),
    submission_key: randomUUID(),
    put_in_by: 'staff',
    told: json(old.told),
    understood: old.understood && json(old.understood),
    measured: old.measured && json(old.measured),
    measured_understood: old.measured_understood && json(old.measured_understood),
    arrived_at: now.toString(),
    taken_up_from: from,
  })
  // They are the same beds of the same place.
  await trx
    .insertInto('request_bed')
    .columns(['quote_request_id', 'bed_id', 'told_position', 'measured_position'])
    .expression(
      trx
        .selectFrom('request_bed')
        .select(eb => [eb.val(id).as('id'), 'bed_id', 'told_position', 'measured_position'])
        .where('quote_request_id', '=', from),
    )
    .execute()
  // Both keep them: photos go when the request that they are of is long over.
  await trx
    .insertInto('request_photo')
    .columns(['quote_request_id', ...PHOTO])
    .expression(
      trx
        .selectFrom('request_photo')
        .select(eb => [eb.val(id).as('id'), ...PHOTO])
        .where('quote_request_id', '=', from),
    )
    .execute()
  return id
}

async function giveRange(
  trx: Transaction<Database>,
  { from, to }: { from: number; to: number },
  now: Temporal.Instant,
): Promise<void> {
  const old = await trx
    .selectFrom('ballpark')
    .selectAll()
    .where('quote_request_id', '=', from)
    .executeTakeFirst()
  if (!old) return
  const { result, ...rest } = old
  const rateTableId = await requireIdInForce(trx, now)
  const { body: table } = await requireRateTable(trx, rateTableId)
  const row = await trx
    .selectFrom('quote_request')
    .select(['told', 'understood'])
    .where('id', '=', to)
    .executeTakeFirstOrThrow()
  const stored = jobStored(row, table)
  if (stored.ok) {
    const options = { narrower: narrowsUnasked(stored.job.beds.length) }
    return insertBallpark(trx, to, rateTableId, workOutBallpark(stored.job, table, options), now)
  }
  const { id: _id, ...copied } = rest
  await trx
    .insertInto('ballpark')
    .values({ ...copied, quote_request_id: to, result: json(result), made_at: now.toString() })
    .execute()
}
