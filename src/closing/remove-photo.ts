import type { Kysely } from 'kysely'
import type { Stage } from '../db/schema/stages.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { recordHistory } from '../requests/history.ts'
import { lockQuoteRequest } from '../requests/stage.ts'

/**
 * Takes a photo of a job out for good; one that is gone already changes nothing. While a bill stands, those that were there
 * when it was made stay, as they show what it is for.
 * @throws {Conflict} where a bill stands on it
 */
export async function removeJobPhoto(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  photoId: number,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const { stage } = await lockQuoteRequest(trx, quoteRequestId)
    const photo = await trx
      .selectFrom('job_photo')
      .select('made_at')
      .where('quote_request_id', '=', quoteRequestId)
      .where('id', '=', photoId)
      .executeTakeFirst()
    if (!photo) return
    const billedAt = await findBilledAt(trx, { id: quoteRequestId, stage })
    if (isBilled(photo, billedAt)) throw new Conflict('closing.photo-billed')
    await trx.deleteFrom('job_photo').where('id', '=', photoId).execute()
    const doer = { kind: 'staff', accountId } as const
    await recordHistory(trx, quoteRequestId, doer, 'photo removed', deps.now())
  })
}

/** When the bill that stands for a request was made; null where none does. */
export async function findBilledAt(
  db: Kysely<Database>,
  { id, stage }: { id: number; stage: Stage },
): Promise<string | null> {
  if (stage !== 'billed' && stage !== 'paid') return null
  const { at } = await db
    .selectFrom('bill')
    .select(eb => eb.fn.max('made_at').as('at'))
    .where('quote_request_id', '=', id)
    .where('kind', '=', 'bill')
    .executeTakeFirstOrThrow()
  return at
}

/** Whether a photo was there when the bill was made that stands. */
export function isBilled({ made_at }: { made_at: string }, billedAt: string | null): boolean {
  return billedAt !== null && Temporal.Instant.compare(made_at, billedAt) <= 0
}
