import type { Transaction } from 'kysely'
import { json } from '../../db/json.ts'
import type { Database } from '../../db/schema.ts'
import { isUniqueViolation } from '../../db/violations.ts'
import type { Deps } from '../../deps.ts'
import { storedTable } from '../../estimate/table/complete-table.ts'
import type { RateTable } from '../../estimate/table/rate-table.ts'
import { rateTableSchema } from '../../estimate/table/rate-table-schema.ts'
import { Conflict, NotFound } from '../../http/errors.ts'
import { findNewestVersion, findVersion } from '../queries.ts'
import { deleteDraft, insertDraft, lockDraft } from './queries.ts'
import { seenOf, seenOfVersion } from './state.ts'

/**
 * Saves the whole table of the draft, whose revision goes up by one; the first that is saved begins the draft. Gives
 * false, and saves nothing, when the draft isn't as it was seen any more: somebody saved, dropped or ended it, or made
 * a version.
 * @throws {z.ZodError} when the table isn't sound
 */
export async function saveDraft(
  deps: Deps,
  accountId: number,
  seen: string,
  table: RateTable,
): Promise<boolean> {
  const body = rateTableSchema.parse(table)
  const saved = { saved_at: deps.now().toString(), saved_by: accountId }
  try {
    return await deps.db.transaction().execute(async trx => {
      const draft = await lockDraft(trx)
      const newest = draft ? undefined : await findNewestVersion(trx)
      const now = draft ? seenOf(draft) : newest && seenOfVersion(newest.version)
      if (seen !== now) return false
      if (draft)
        await trx
          .updateTable('rate_draft')
          .set({ body: json(storedTable(body)), revision: draft.revision + 1, ...saved })
          .where('id', '=', draft.id)
          .execute()
      else await begin(trx, deps, accountId, newest!.id, body)
      return true
    })
  } catch (error) {
    if (isUniqueViolation(error, 'rate_draft_one_open')) return false
    throw error
  }
}

/**
 * Begins a draft with the figures of an earlier version.
 * @throws {Conflict} when a draft is open
 * @throws {NotFound} when there is no such version
 */
export async function beginFrom(deps: Deps, accountId: number, version: number): Promise<void> {
  try {
    await deps.db.transaction().execute(async trx => {
      const [from, newest] = [await findVersion(trx, version), await findNewestVersion(trx)]
      if (!from || !newest) throw new NotFound()
      if (await lockDraft(trx)) throw new Conflict('rates.draft-open')
      await begin(trx, deps, accountId, newest.id, from.body)
    })
  } catch (error) {
    if (isUniqueViolation(error, 'rate_draft_one_open')) throw new Conflict('rates.draft-open')
    throw error
  }
}

/**
 * Drops the draft; nothing of it stays.
 * @throws {Conflict} when it isn't as it was seen any more
 */
export async function dropDraft(deps: Deps, seen: string): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const draft = await lockDraft(trx)
    if (!draft || seenOf(draft) !== seen) throw new Conflict('rates.draft-changed')
    await deleteDraft(trx, draft.id)
  })
}

async function begin(
  trx: Transaction<Database>,
  deps: Deps,
  accountId: number,
  basedOn: number,
  body: RateTable,
): Promise<void> {
  const at = deps.now().toString()
  const by = { made_at: at, made_by: accountId, saved_at: at, saved_by: accountId }
  await insertDraft(trx, { based_on: basedOn, body: json(storedTable(body)), ...by })
}
