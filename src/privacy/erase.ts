import type { Transaction } from 'kysely'
import { noteAccess } from '../account/access-log.ts'
import type { Stage } from '../db/schema/stages.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { forgetReplaced } from '../papers/queries.ts'
import { oneAtATime } from '../places/decisions.ts'
import { requireHead } from '../places/queries.ts'
import { type Doer, recordHistory } from '../requests/history.ts'
import { FOLLOWING, lockQuoteRequest, moveTo } from '../requests/stage.ts'
import { endVisitAhead } from '../visits/queries.ts'
import { blankCustomers, blankPapers, blankRequests, letGoOfFirms } from './blank.ts'
import { deleteHeldOf } from './held.ts'
import { findStanding, type HeldUp, heldUp, type RequestStanding } from './may-erase.ts'
import { peopleOf } from './people.ts'

/** What became of erasing: done, done before, or what stands in its way. */
export type Erased = { is: 'erased' | 'before' } | { is: 'held'; held: HeldUp[] }

/**
 * Erases all that names the customer who heads a group, in one transaction, what is held as maybe junk with their phone or email too: requests that aren't over are ended without a
 * word to anybody, links end, and bills, certificates and hours stay until their years are over. Done before, it does
 * nothing. Nothing is done either while money is owed or work is ahead.
 */
export async function eraseCustomer(deps: Deps, accountId: number, headId: number): Promise<Erased> {
  const now = deps.now()
  return deps.db.transaction().execute(async trx => {
    // Whoever is joined with them meanwhile is of their group before this, or told that they are erased.
    await oneAtATime(trx, 'customer')
    const people = await peopleOf(trx, await requireHead(trx, 'customer', headId), true)
    const standing = (await findStanding(trx, people.requests)).filter(({ erased_at }) => erased_at === null)
    const { left } = await trx
      .selectFrom('customer')
      .select(eb => eb.fn.countAll<number>().as('left'))
      .where('id', 'in', people.customers)
      .where('erased_at', 'is', null)
      .executeTakeFirstOrThrow()
    if (standing.length === 0 && left === 0) return { is: 'before' }
    const held = await heldUp(trx, people.customers, standing)
    if (held.length > 0) return { is: 'held', held }
    await deleteHeldOf(trx, people)
    await eraseRequests(trx, standing, people.customers, { kind: 'staff', accountId }, now)
    await noteAccess(trx, { account_id: accountId, verb: 'erased', customer_id: headId }, standing, now)
    return { is: 'erased' }
  })
}

/** Erases requests that nothing stands in the way of, and of these customers those whose group has no other. */
export async function eraseRequests(
  trx: Transaction<Database>,
  standing: RequestStanding[],
  customers: number[],
  doer: Doer,
  now: Temporal.Instant,
): Promise<void> {
  for (const { id } of standing) await endWithoutAWord(trx, id, doer, now)
  const ids = standing.map(({ id }) => id)
  await blankRequests(trx, ids, now)
  await blankPapers(
    trx,
    standing.filter(({ kept_until }) => kept_until === null).map(({ id }) => id),
    now,
  )
  await blankCustomers(trx, customers, now)
  await letGoOfFirms(trx)
  await forgetReplaced(trx)
}

/** Ends a request that isn't over: nobody hears of it, as there is nobody to be told any more. */
async function endWithoutAWord(trx: Transaction<Database>, id: number, doer: Doer, now: Temporal.Instant) {
  const request = await lockQuoteRequest(trx, id)
  if (isOver(request.stage)) return
  await moveTo(trx, request, 'called off', now)
  await endVisitAhead(trx, id, 'called_off_at', now)
  await recordHistory(trx, id, doer, 'called off', now)
}

function isOver(stage: Stage): boolean {
  return stage === 'paid' || FOLLOWING[stage].length === 0
}
