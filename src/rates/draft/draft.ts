import { json } from '../../db/json.ts'
import { isUniqueViolation } from '../../db/violations.ts'
import type { Deps } from '../../deps.ts'
import type { RateTable } from '../../estimate/rate-table.ts'
import { rateTableSchema } from '../../estimate/rate-table-schema.ts'
import { Conflict, NotFound } from '../../http/errors.ts'
import { findNewestVersion } from '../queries.ts'
import { deleteDraft, insertDraft, lockDraft } from './queries.ts'

/** What a form carries to say which state of which draft it was filled in from. */
export function seenOf(draft: { id: number; revision: number }): string {
  return `${draft.id}.${draft.revision}`
}

/** Opens a draft from the newest version; where one is open already it goes on. Gives whether it is new. */
export async function openDraft(deps: Deps, accountId: number): Promise<boolean> {
  const at = deps.now().toString()
  try {
    return await deps.db.transaction().execute(async trx => {
      if (await lockDraft(trx)) return false
      const newest = await findNewestVersion(trx)
      if (!newest) throw new NotFound()
      const made = { made_at: at, made_by: accountId, saved_at: at, saved_by: accountId }
      await insertDraft(trx, { based_on: newest.id, body: json(newest.body), ...made })
      return true
    })
  } catch (error) {
    if (isUniqueViolation(error, 'rate_draft_one_open')) return false
    throw error
  }
}

/**
 * Saves the whole table of the draft, whose revision goes up by one.
 * @throws {Conflict} when the draft isn't as it was seen any more: somebody saved, dropped or ended it
 * @throws {z.ZodError} when the table isn't sound
 */
export async function saveDraft(
  deps: Deps,
  accountId: number,
  seen: string,
  table: RateTable,
): Promise<void> {
  const body = rateTableSchema.parse(table)
  await deps.db.transaction().execute(async trx => {
    const draft = await lockDraft(trx)
    if (!draft || seenOf(draft) !== seen) throw new Conflict('rates.draft-changed')
    await trx
      .updateTable('rate_draft')
      .set({
        body: json(body),
        revision: draft.revision + 1,
        saved_at: deps.now().toString(),
        saved_by: accountId,
      })
      .where('id', '=', draft.id)
      .execute()
  })
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
