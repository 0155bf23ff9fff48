import { requireBusiness } from '../../business/queries.ts'
import { isUniqueViolation } from '../../db/violations.ts'
import type { Deps } from '../../deps.ts'
import { completeTable } from '../../estimate/table/complete-table.ts'
import { Conflict } from '../../http/errors.ts'
import { dayOf } from '../../lib/dates.ts'
import { findNewestVersion, insertRateTable, nextVersionNumber } from '../queries.ts'
import { deleteDraft, lockDraft } from './queries.ts'
import { seenOf } from './state.ts'

/** What was looked at when the draft was put in force: its state, the newest version then, and the first day. */
export interface PutInForce {
  seen: string
  newest: number
  day: string
}

/**
 * Makes the draft the next version, in force from the beginning of a day where the business is, at once where that
 * is today; the draft ends. Gives the number of the version.
 * @throws {Conflict} when the draft, or the newest version that it was compared with, is another by now
 * @throws {RangeError} when the day is past
 */
export async function putInForce(deps: Deps, accountId: number, wanted: PutInForce): Promise<number> {
  const now = deps.now()
  try {
    return await deps.db.transaction().execute(async trx => {
      const draft = await lockDraft(trx)
      if (!draft || seenOf(draft) !== wanted.seen) throw new Conflict('rates.draft-changed')
      const version = await nextVersionNumber(trx)
      const newest = await findNewestVersion(trx)
      if (newest?.version !== wanted.newest) throw new Conflict('rates.newer-version')
      const { time_zone } = await requireBusiness(trx)
      const today = dayOf(now, time_zone)
      if (wanted.day < today) throw new RangeError('a day that is past')
      await insertRateTable(trx, {
        version,
        body: completeTable(draft.body),
        made_at: now.toString(),
        made_by: accountId,
        in_force_from: wanted.day === today ? null : beginningOf(wanted.day, time_zone),
      })
      await deleteDraft(trx, draft.id)
      return version
    })
  } catch (error) {
    if (isUniqueViolation(error, 'rate_table_version_key')) throw new Conflict('rates.newer-version')
    throw error
  }
}

function beginningOf(day: string, timeZone: string): string {
  return Temporal.PlainDate.from(day).toZonedDateTime(timeZone).toInstant().toString()
}
