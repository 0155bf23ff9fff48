import type { Transaction } from 'kysely'
import { fromKysely, type PgBoss } from 'pg-boss'
import type { Way } from '../db/schema/letters.ts'
import type { Database } from '../db/schema.ts'
import { isGivenUp } from '../outbox/given-up.ts'
import { type MailJob, QUEUE_OF, TRIED_FOR } from './jobs.ts'

/**
 * Queues again what is unsent in the outbox, neither given up nor too old, for what is left of its time: for a store
 * whose queue didn't come along, or the texts for a gateway that is new. Gives how many messages there are.
 */
export async function queueUnsent(
  boss: PgBoss,
  trx: Transaction<Database>,
  now: Temporal.Instant,
  way: Way,
): Promise<number> {
  const unsent = await trx
    .selectFrom('outbox')
    .select(['id', 'tried_from', 'last_fault'])
    .where('way', '=', way)
    .where('sent_at', 'is', null)
    .where('for_digest', '=', false)
    .where('tried_from', '>', now.subtract(TRIED_FOR).toString())
    .execute()
  const jobs = unsent
    .filter(({ last_fault }) => !isGivenUp(last_fault))
    .map(({ id, tried_from }) => {
      const data: MailJob = { outboxId: id }
      const left = Temporal.Instant.from(tried_from).add(TRIED_FOR).since(now).total('seconds')
      return { data, retentionSeconds: Math.ceil(left) }
    })
  if (jobs.length > 0) await boss.insert(QUEUE_OF[way], jobs, { db: fromKysely(trx) })
  return jobs.length
}
