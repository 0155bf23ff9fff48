import type { Transaction } from 'kysely'
import type { Stage } from '../db/schema/stages.ts'
import type { Database } from '../db/schema.ts'
import { Conflict, NotFound, Refusal } from '../http/errors.ts'

/** Which stages follow which; the queue offers these and the verbs refuse any other. */
export const FOLLOWING: Record<Stage, readonly Stage[]> = {
  new: ['visit set', 'quoted', "can't do", 'called off'],
  'visit set': ['measured', 'new', 'called off', "can't do"],
  measured: ['quoted', "can't do", 'called off'],
  quoted: ['quoted', 'day asked', 'week chosen', 'booked', 'not taken', 'lapsed', 'called off'],
  'day asked': ['booked', 'quoted', 'called off'],
  'week chosen': ['booked', 'called off'],
  booked: ['part done', 'done', 'booked', 'called off'],
  'part done': ['part done', 'done', 'booked'],
  done: ['booked', 'part done', 'billed'],
  billed: ['paid', 'done'],
  paid: ['billed', 'done'],
  'called off': [],
  'not taken': [],
  "can't do": [],
  lapsed: [],
}

/** Whether a price may be made: while a day is asked for, that is answered first. */
export function mayBeQuoted(stage: Stage): boolean {
  return stage !== 'day asked' && FOLLOWING[stage].includes('quoted')
}

export interface LockedRequest {
  id: number
  number: string
  stage: Stage
}

/**
 * Locks a quote request until the transaction ends, so that whatever changes its stage goes one after another.
 * @throws {NotFound} when there is none
 * @throws {Refusal} 410 when its person is erased
 */
export async function lockQuoteRequest(trx: Transaction<Database>, id: number): Promise<LockedRequest> {
  const row = await trx
    .selectFrom('quote_request')
    .select(['id', 'number', 'stage', 'erased_at'])
    .where('id', '=', id)
    .forUpdate()
    .executeTakeFirst()
  if (!row) throw new NotFound()
  if (row.erased_at) throw new Refusal(410, 'error.erased')
  return row
}

/** Why something can't be done at the stage that a request is at. */
export function refusalAt({ stage, number }: Pick<LockedRequest, 'stage' | 'number'>): Conflict {
  return new Conflict(stage === 'week chosen' ? 'days.no-day-yet' : 'error.stage', { number })
}

/**
 * Moves a locked quote request to a stage that may follow its own.
 * @throws {Conflict} when it may not
 */
export async function moveTo(
  trx: Transaction<Database>,
  request: LockedRequest,
  stage: Stage,
  at: Temporal.Instant,
) {
  if (!FOLLOWING[request.stage].includes(stage)) throw refusalAt(request)
  await trx
    .updateTable('quote_request')
    .set({ stage, stage_at: at.toString() })
    .where('id', '=', request.id)
    .execute()
}
