import type { Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { recordHistory } from '../requests/history.ts'
import { type LockedRequest, lockQuoteRequest } from '../requests/stage.ts'

/** Puts a request on hold until a day; the same day again changes nothing. @throws {Conflict} when it isn't on the list */
export async function putOnHold(deps: Deps, accountId: number, id: number, until: string): Promise<void> {
  await change(deps, accountId, id, async (trx, request) => {
    const { step, on_hold_until } = await requireAside(trx, id)
    if (on_hold_until === until) return null
    if (!step) throw new Conflict('error.stage', { number: request.number })
    await trx.updateTable('quote_request').set({ on_hold_until: until }).where('id', '=', id).execute()
    return { verb: 'put on hold', detail: { until } }
  })
}

/** Takes a request off hold before its day; a repeat changes nothing. */
export async function takeOffHold(deps: Deps, accountId: number, id: number): Promise<void> {
  await change(deps, accountId, id, async trx => {
    if ((await requireAside(trx, id)).on_hold_until === null) return null
    await trx.updateTable('quote_request').set({ on_hold_until: null }).where('id', '=', id).execute()
    return { verb: 'taken off hold' }
  })
}

/**
 * Gives a request to somebody of the staff, or back to nobody; the same again changes nothing.
 * @throws {NotFound} when there is no such account
 */
export async function giveTo(deps: Deps, accountId: number, id: number, to: number | null): Promise<void> {
  await change(deps, accountId, id, async trx => {
    if ((await requireAside(trx, id)).given_to === to) return null
    const name = to === null ? '' : await requireName(trx, to)
    await trx.updateTable('quote_request').set({ given_to: to }).where('id', '=', id).execute()
    return { verb: 'given', detail: { to: name } }
  })
}

/** Holds a new request apart as junk; a repeat changes nothing. @throws {Conflict} when somebody has dealt with it already */
export async function markJunk(deps: Deps, accountId: number, id: number): Promise<void> {
  await change(deps, accountId, id, async (trx, request, now) => {
    if ((await requireAside(trx, id)).junk_at !== null) return null
    if (request.stage !== 'new') throw new Conflict('error.stage', { number: request.number })
    await trx.updateTable('quote_request').set({ junk_at: now.toString() }).where('id', '=', id).execute()
    return { verb: 'marked as junk' }
  })
}

/** Puts what was held apart as junk back under its step; a repeat changes nothing. */
export async function markReal(deps: Deps, accountId: number, id: number): Promise<void> {
  await change(deps, accountId, id, async trx => {
    if ((await requireAside(trx, id)).junk_at === null) return null
    await trx.updateTable('quote_request').set({ junk_at: null }).where('id', '=', id).execute()
    return { verb: 'marked as real' }
  })
}

type Done = { verb: string; detail?: Record<string, string> } | null

// Does it with the request locked, and writes down what was done, if anything was.
async function change(
  deps: Deps,
  accountId: number,
  id: number,
  act: (trx: Transaction<Database>, request: LockedRequest, now: Temporal.Instant) => Promise<Done>,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const done = await act(trx, await lockQuoteRequest(trx, id), now)
    if (done) await recordHistory(trx, id, { kind: 'staff', accountId }, done.verb, now, done.detail)
  })
}

async function requireAside(trx: Transaction<Database>, id: number) {
  return trx
    .selectFrom('quote_request')
    .select(['step', 'on_hold_until', 'given_to', 'junk_at'])
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
}

async function requireName(trx: Transaction<Database>, accountId: number): Promise<string> {
  const account = await trx
    .selectFrom('account')
    .select('name')
    .where('id', '=', accountId)
    .where('ended_at', 'is', null)
    .executeTakeFirst()
  if (!account) throw new NotFound()
  return account.name
}
