import type { Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import {
  joinGroups,
  keepGroupsApart,
  oneAtATime,
  requireDecision,
  undoDecision,
} from '../places/decisions.ts'
import { type Kind, requireHead } from '../places/queries.ts'
import { recordHistory } from '../requests/history.ts'
import { findSamePlaces } from './queries.ts'

/** Two customers or two places, by any of their rows, and who decides. */
interface Pair {
  kind: Kind
  one: number
  other: number
  accountId: number
}

/** The same customer, and the same place where it is one; the place alone; or neither. */
export type Decision = 'same' | 'place' | 'apart'

/**
 * Says of two customers that they are one household, that they only share a place, or that they have nothing to do with
 * each other; their places follow, as far as their addresses are alike. Said again, it changes nothing.
 * @throws {NotFound} when there is no such customer
 * @throws {Conflict} when they are to be kept apart, and are joined
 */
export async function decideCustomers(
  deps: Deps,
  { one, other, accountId }: Omit<Pair, 'kind'>,
  decision: Decision,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    await lockRequestsOf(trx, 'customer', one, other)
    const places = await findSamePlaces(trx, one, other)
    const pair = { kind: 'customer', one, other, accountId } as const
    await (decision === 'same' ? join(trx, deps, pair) : keepApart(trx, deps, pair))
    for (const { mine, theirs } of places) {
      const of = { kind: 'place', one: mine, other: theirs, accountId } as const
      if (decision !== 'apart') await join(trx, deps, of)
      else if (await areApart(trx, mine, theirs)) await keepApart(trx, deps, of)
    }
  })
}

/**
 * Says of two places that they are one, or that they aren't. Said again, it changes nothing.
 * @throws {NotFound} when there is no such place
 * @throws {Conflict} when they are to be kept apart, and are joined
 */
export async function decidePlaces(deps: Deps, pair: Omit<Pair, 'kind'>, isSame: boolean): Promise<void> {
  const of = { ...pair, kind: 'place' } as const
  await deps.db.transaction().execute(async trx => {
    await lockRequestsOf(trx, 'place', pair.one, pair.other)
    await (isSame ? join(trx, deps, of) : keepApart(trx, deps, of))
  })
}

/**
 * Undoes what was decided; what had been joined stands as before, and that it was joined stays told. Undone already, it
 * changes nothing.
 * @throws {NotFound} when there is no such decision
 */
export async function takeBack(deps: Deps, kind: Kind, decisionId: number, accountId: number): Promise<void> {
  const at = deps.now()
  await deps.db.transaction().execute(async trx => {
    const { one_id: one, other_id: other, verb } = await requireDecision(trx, kind, decisionId)
    await lockRequestsOf(trx, kind, one, other)
    if (!(await undoDecision(trx, { kind, id: decisionId, accountId, at }))) return
    const said = verb === 'joined' ? 'separated from' : 'no longer kept apart from'
    await recordBoth(trx, { kind, one, other, accountId }, said, at)
  })
}

async function join(trx: Transaction<Database>, { now }: Deps, pair: Pair): Promise<void> {
  const at = now()
  const joined = await joinGroups(trx, { ...pair, at })
  if (!joined) return
  await recordBoth(trx, { ...pair, one: joined.joined, other: joined.to }, 'joined with', at)
}

async function keepApart(trx: Transaction<Database>, { now }: Deps, pair: Pair): Promise<void> {
  const at = now()
  if (await keepGroupsApart(trx, { ...pair, at })) await recordBoth(trx, pair, 'kept apart from', at)
}

async function areApart(trx: Transaction<Database>, one: number, other: number): Promise<boolean> {
  return (await requireHead(trx, 'place', one)) !== (await requireHead(trx, 'place', other))
}

// Before any row of theirs: whoever changes a request holds it, and then its customer.
async function lockRequestsOf(
  trx: Transaction<Database>,
  kind: Kind,
  one: number,
  other: number,
): Promise<void> {
  // Whoever erases somebody waits for it before any request too.
  if (kind === 'customer') await oneAtATime(trx, kind)
  const heads = [await requireHead(trx, kind, one), await requireHead(trx, kind, other)]
  await trx
    .selectFrom('quote_request')
    .select('id')
    .where(`${kind}_id`, 'in', eb =>
      eb.selectFrom(kind).select(`${kind}.id`).where(`${kind}.head_id`, 'in', heads),
    )
    .orderBy('id')
    .forUpdate()
    .execute()
}

/** Tells it in the history of the requests that either row came in with. */
async function recordBoth(
  trx: Transaction<Database>,
  { kind, one, other, accountId }: Pair,
  verb: string,
  at: Temporal.Instant,
): Promise<void> {
  for (const [mine, theirs] of [
    [one, other],
    [other, one],
  ] as const) {
    const who = await wordsFor(trx, kind, theirs)
    const requests = await trx
      .selectFrom('quote_request')
      .select('id')
      .where(`${kind}_id`, '=', mine)
      .execute()
    for (const { id } of requests)
      await recordHistory(trx, id, { kind: 'staff', accountId }, `${kind} ${verb}`, at, { who })
  }
}

async function wordsFor(trx: Transaction<Database>, kind: Kind, id: number): Promise<string> {
  const row =
    kind === 'customer'
      ? await trx.selectFrom('customer').select('name as words').where('id', '=', id).executeTakeFirst()
      : await trx.selectFrom('place').select('street as words').where('id', '=', id).executeTakeFirst()
  return row?.words ?? ''
}
