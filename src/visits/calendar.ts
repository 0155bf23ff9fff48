import type { Deps } from '../deps.ts'
import type { CalendarEntry } from '../outbox/calendar.ts'
import { entryFor, type ToldAs } from '../outbox/entry-words.ts'

/**
 * The visit of a request as its homeowner's calendar has it; undefined where none was ever arranged, or it is done.
 * Each move counts for two.
 */
export async function visitEntry(
  deps: Pick<Deps, 'db' | 'config'>,
  quoteRequestId: number,
  told: ToldAs,
): Promise<CalendarEntry | undefined> {
  const visits = await deps.db
    .selectFrom('visit')
    .select(['starts_at', 'minutes', 'done_at', 'called_off_at'])
    .where('quote_request_id', '=', quoteRequestId)
    .orderBy('id')
    .execute()
  const last = visits.at(-1)
  if (!last || last.done_at) return undefined
  const dated = {
    sequence: visits.length - 1 + visits.filter(visit => visit.called_off_at).length,
    when: { startsAt: Temporal.Instant.from(last.starts_at), minutes: last.minutes },
    isCanceled: last.called_off_at !== null,
  }
  return entryFor(deps, 'visit', dated, told)
}
