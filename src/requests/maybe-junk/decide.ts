import type { Transaction } from 'kysely'
import type { Database } from '../../db/schema.ts'
import type { Deps } from '../../deps.ts'
import { NotFound } from '../../http/errors.ts'
import { recordHistory } from '../history.ts'
import { insertRequest } from '../insert-request.ts'
import { makeLink } from '../links.ts'
import { mailHomeowner } from '../mail-homeowner.ts'
import { insertBallpark } from '../worked.ts'
import { handPhotosOver } from './photos.ts'

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
    const now = deps.now()
    const arrivedAt = Temporal.Instant.from(row.arrived_at)
    const standing = { ...row, submissionKey: row.submission_key, contentHash: row.content_hash }
    const byHomeowner = { kind: 'homeowner' } as const
    const id = await insertRequest(trx, standing, byHomeowner, arrivedAt)
    if (row.ballpark) await insertBallpark(trx, id, row.rate_table_id!, row.ballpark, arrivedAt)
    await handPhotosOver(trx, row.id, id)
    await trx.deleteFrom('maybe_junk').where('id', '=', row.id).execute()
    await makeLink(trx, deps.secretKey, 'own page', id, arrivedAt, null, row.nonce)
    await recordHistory(trx, id, byHomeowner, 'sent', arrivedAt)
    await recordHistory(trx, id, { kind: 'staff', accountId }, 'marked as real', now)
    await mailHomeowner(trx, deps, 'request-received', id, now)
    return 'done'
  })
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
