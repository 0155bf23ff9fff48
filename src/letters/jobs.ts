import { fromKysely, PgBoss } from 'pg-boss'
import type { Store } from '../db/open.ts'
import type { Jobs } from '../deps.ts'

export interface MailJob {
  outboxId: string
}

export interface BackgroundWork {
  boss: PgBoss
  jobs: Jobs
  /** Tells of a fault that belongs to no request. */
  report(fault: unknown): void
  /** Where faults go that belong to no request; to the console until this is said. */
  reportTo(report: (fault: unknown) => void): void
  /** Takes on nothing new, and waits for what is being done; `grace` in milliseconds. */
  stop(grace: number): Promise<void>
}

export const SEND_MAIL = 'send-mail'
const NOT_SENT = 'mail-not-sent'
export const NIGHTLY = 'nightly'

/** For how long a message is tried. After that it would be stale news; the outbox still shows it. */
export const TRIED_FOR = { hours: 72 }

const HOUR = 3600

// 30 s, 1, 2, 4 and 8 minutes, then every quarter of an hour: the limit lies beyond the 72 hours.
const RETRIES = { retryLimit: 1000, retryDelay: 30, retryBackoff: true, retryDelayMax: HOUR / 4 }

/** Opens the job queue in the store's own database, making or updating its tables under its own lock. */
export async function startBackgroundWork(store: Store): Promise<BackgroundWork> {
  let report = (fault: unknown) => console.error((fault as Error).message)
  const boss = new PgBoss({
    db: store,
    backend: store.kind === 'embedded' ? 'pglite' : 'postgres',
    // The embedded store has no vacuum of its own: the nightly job is it.
    monitorVacuum: store.kind === 'postgres',
  })
  boss.on('error', fault => report(fault))
  await boss.start()
  await boss.createQueue(NOT_SENT)
  await boss.createQueue(SEND_MAIL, {
    ...RETRIES,
    expireInSeconds: HOUR / 6,
    retentionSeconds: TRIED_FOR.hours * HOUR,
    deleteAfterSeconds: 24 * HOUR,
    deadLetter: NOT_SENT,
  })
  await boss.createQueue(NIGHTLY, { retryLimit: 2, retryDelay: 600, expireInSeconds: HOUR })
  return {
    boss,
    jobs: queuedJobs(boss),
    report: fault => report(fault),
    reportTo: to => {
      report = to
    },
    stop: grace => boss.stop({ graceful: true, timeout: grace }),
  }
}

function queuedJobs(boss: PgBoss): Jobs {
  return {
    sendMail: async (trx, outboxId) => {
      const job: MailJob = { outboxId }
      await boss.send(SEND_MAIL, job, { db: fromKysely(trx) })
    },
  }
}
