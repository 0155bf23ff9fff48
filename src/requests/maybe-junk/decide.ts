import type { Transaction } from 'kysely'
import type { Database } from '../../db/schema.ts'
import type { Deps } from '../../deps.ts'
import { NotFound } from '../../http/errors.ts'
import { putInOutbox } from '../../outbox/outbox.ts'
import { type Doer, recordHistory } from '../history.ts'
import { insertRequest } from '../insert-request.ts'
import { makeLink } from '../links.ts'
import { mailHomeowner } from '../mail-homeowner.ts'
import { insertBallpark } from '../worked.ts'
import { handPhotosOver } from './photos.ts'
import { findAsked } from './queries.ts'

/** What came of a tap: it was done now, or had been before, or what it was about is gone. */
export type Decided = 'done' | 'before' | 'gone'

/**
 * Moves what was held into the queue, as if it had come when it came, with the number, page, range and photos it had; its homeowner's mail goes
 * out now. Of two who do it at once one finds it done.
 */
export async function moveToQueue(deps: Deps, accountId: number, number: string): Promise<Decided> {
  return deps.db.transaction().execute(async trx => {
    // A form that is sent once more just now waits until it stands in one table or the other.
    await trx.selectFrom('request_year').select('year').orderBy('year').forUpdate().execute()
    const row = await lock(trx, number)
    if (!row) return (await isInQueue(trx, number)) ? 'before' : 'gone'
    await moveIn(trx, deps, row, { kind: 'staff', accountId })
    return 'done'
  })
}

/**
 * The same by whoever sent it, with the link that was mailed or texted to them: their address is confirmed too. What the staff said is junk stays where
 * it is. Gives the request's id; undefined where the token opens nothing that is held.
 */
export async function confirmReal(deps: Deps, token: string): Promise<number | undefined> {
  return deps.db.transaction().execute(async trx => {
    await trx.selectFrom('request_year').select('year').orderBy('year').forUpdate().execute()
    const asked = await findAsked(trx, token)
    const row = asked && (await lock(trx, asked.number))
    if (!row || row.junk_at) return undefined
    return moveIn(trx, deps, row, { kind: 'homeowner' })
  })
}

async function moveIn(
  trx: Transaction<Database>,
  deps: Deps,
  row: NonNullable<Awaited<ReturnType<typeof lock>>>,
  doer: Doer,
): Promise<number> {
  const now = deps.now()
  const arrivedAt = Temporal.Instant.from(row.arrived_at)
  const standing = { ...row, submissionKey: row.submission_key, contentHash: row.content_hash }
  const byHomeowner = { kind: 'homeowner' } as const
  const id = await insertRequest(trx, standing, byHomeowner, arrivedAt)
  if (row.ballpark) await insertBallpark(trx, id, row.rate_table_id!, row.ballpark, arrivedAt)
  await handPhotosOver(trx, row.id, id)
  await trx.deleteFrom('maybe_junk').where('id', '=', row.id).execute()
  await makeLink(trx, deps.secretKey, 'own page', id, arrivedAt, null, row.nonce)
  // What was mailed leads on, to the page of the request that it is now.
  if (row.asked_hash) await makeLink(trx, deps.secretKey, 'email address', id, now, null, row.nonce)
  await recordHistory(trx, id, byHomeowner, 'sent', arrivedAt)
  if (doer.kind === 'staff') await recordHistory(trx, id, doer, 'marked as real', now)
  await mailHomeowner(trx, deps, 'request-received', id, now)
  if (doer.kind === 'homeowner') await putInOutbox(trx, deps.jobs, 'request-arrived', 'owner', id, now)
  return id
}

/**
 * Says that one is junk: out of sight, and deleted with the rest. A repeat changes nothing.
 * @throws {NotFound} when there never was one with this number, or it is deleted already
 */
export async function sayJunk(deps: Deps, number: string): Promise<Decided> {
  return deps.db.transaction().execute(async trx => {
    const row = await lock(trx, number)
    if (!row) {
      if (await isInQueue(trx, number)) return 'gone'
      throw new NotFound()
    }
    if (row.junk_at) return 'before'
    await trx
      .updateTable('maybe_junk')
      .set({ junk_at: deps.now().toString() })
      .where('id', '=', row.id)
      .execute()
    return 'done'
  })
}

/** The same of several at once; gives how many that were. Those that somebody decided meanwhile stay as they are. */
export async function sayAllJunk(deps: Deps, numbers: string[]): Promise<number> {
  if (numbers.length === 0) return 0
  const changed = await deps.db
    .updateTable('maybe_junk')
    .set({ junk_at: deps.now().toString() })
    .where('number', 'in', numbers)
    .where('junk_at', 'is', null)
    .executeTakeFirst()
  return Number(changed.numUpdatedRows)
}

function lock(trx: Transaction<Database>, number: string) {
  return trx.selectFrom('maybe_junk').selectAll().where('number', '=', number).forUpdate().executeTakeFirst()
}

async function isInQueue(trx: Transaction<Database>, number: string): Promise<boolean> {
  const row = await trx
    .selectFrom('quote_request')
    .select('id')
    .where('number', '=', number)
    .executeTakeFirst()
  return row !== undefined
}
