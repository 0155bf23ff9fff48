import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { addDays, dayOf } from '../lib/dates.ts'
import { recordHistory } from '../requests/history.ts'
import { lockQuoteRequest } from '../requests/stage.ts'
import { shownStep } from './steps.ts'

/** When to try again: some hours later, or from the morning of a day on. */
export const AGAIN = {
  later: 'Later today',
  1: 'Tomorrow',
  2: 'In 2 days',
  7: 'In a week',
} as const
export type Again = keyof typeof AGAIN

const LATER = { hours: 3 }

/** A call without an answer: how many there had been on the page that it was noted on, and when to try again. */
export interface NoAnswer {
  seen: number
  again: `${Again}`
}

/**
 * Notes a call that nobody answered. Pressed twice, or from a page on which there were fewer calls, it changes nothing.
 * @throws {Conflict} when there is nobody to call
 */
export async function noteNoAnswer(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  timeZone: string,
  { seen, again }: NoAnswer,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const { number } = await lockQuoteRequest(trx, quoteRequestId)
    const row = await trx
      .selectFrom('quote_request')
      .select(['step', 'due_at', 'calls'])
      .where('id', '=', quoteRequestId)
      .executeTakeFirstOrThrow()
    if (row.calls !== seen) return
    if (shownStep(row, now) !== 'Call') throw new Conflict('error.stage', { number })
    const at = againAt(again, now, timeZone).toString()
    const calls = row.calls + 1
    await trx
      .updateTable('quote_request')
      .set({ calls, call_again_at: at })
      .where('id', '=', quoteRequestId)
      .execute()
    const doer = { kind: 'staff', accountId } as const
    await recordHistory(trx, quoteRequestId, doer, 'no answer', now, { calls: String(calls), again: at })
  })
}

function againAt(again: NoAnswer['again'], now: Temporal.Instant, timeZone: string): Temporal.Instant {
  if (again === 'later') return now.add(LATER)
  const day = addDays(dayOf(now, timeZone), Number(again))
  return Temporal.PlainDate.from(day).toZonedDateTime(timeZone).toInstant()
}
