import type { Transaction } from 'kysely'
import { fromKysely, type PgBoss } from 'pg-boss'
import type { Database } from '../db/schema.ts'
import { isStopped } from './faults.ts'
import { type MailJob, SEND_MAIL, TRIED_FOR } from './jobs.ts'

/**
 * Queues again what is unsent in the outbox, neither given up nor too old, for what is left of its time: for a store
 * whose queue didn't come along. Gives how many messages there are.
 */
export async function queueUnsent(
  boss: PgBoss,
  trx: Transaction<Database>,
  now: Temporal.Instant,
): Promise<number> {
  const unsent = await trx
    .selectFrom('outbox')
    .select(['id', 'made_at', 'last_fault'])
    .where('sent_at', 'is', null)
    .where('made_at', '>', now.subtract(TRIED_FOR).toString())
    .execute()
  const jobs = unsent
    .filter(({ last_fault }) => !isStopped(last_fault))
    .map(({ id, made_at }) => {
      const data: MailJob = { outboxId: id }
      const left = Temporal.Instant.from(made_at).add(TRIED_FOR).since(now).total('seconds')
      return { data, retentionSeconds: Math.ceil(left) }
    })
  if (jobs.length > 0) await boss.insert(SEND_MAIL, jobs, { db: fromKysely(trx) })
  return jobs.length
}
