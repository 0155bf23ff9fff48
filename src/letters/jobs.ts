import type { Transaction } from 'kysely'
import { fromKysely, PgBoss } from 'pg-boss'
import type { Store } from '../db/open.ts'
import type { Way } from '../db/schema/letters.ts'
import type { Database } from '../db/schema.ts'
import type { Jobs } from '../deps.ts'

export interface MailJob {
  outboxId: string
}

export interface BackgroundWork {
  boss: PgBoss
  jobs: Jobs
  /** Tells of a fault that belongs to no request. */
  report(fault: unknown): void
  /** Tells how much of each kind was past its time and is deleted. */
  note(counts: Record<string, number>): void
  /** Where that goes; nowhere until this is said. */
  noteTo(note: (counts: Record<string, number>) => void): void
  /** Where faults go that belong to no request; to the console until this is said. */
  reportTo(report: (fault: unknown) => void): void
  /** Takes on nothing new, and waits for what is being done; `grace` in milliseconds. */
  stop(grace: number): Promise<void>
}

export const SEND_MAIL = 'send-mail'
export const SEND_TEXT = 'send-text'
/** The queue of each way that a message may go. */
export const QUEUE_OF: Record<Way, string> = { mail: SEND_MAIL, text: SEND_TEXT }
const NOT_SENT = 'mail-not-sent'
export const NIGHTLY = 'nightly'
/** What is due by the clock, every quarter of an hour. */
export const CLOCK = 'clock'

/** The queues that are worked off. */
export const QUEUES = [SEND_MAIL, SEND_TEXT, CLOCK, NIGHTLY]

/** For how long a message is tried. After that it would be stale news; the outbox still shows it. */
export const TRIED_FOR = { hours: 72 }

/** Whether a message has been tried for so long. */
export function isTooOld({ tried_from }: { tried_from: string }, now: Temporal.Instant): boolean {
  return Temporal.Instant.compare(tried_from, now.subtract(TRIED_FOR)) < 0
}

const HOUR = 3600

// 30 s, 1, 2, 4 and 8 minutes, then every quarter of an hour: the limit lies beyond the 72 hours.
const RETRIES = { retryLimit: 1000, retryDelay: 30, retryBackoff: true, retryDelayMax: HOUR / 4 }

/** Opens the job queue in the store's own database, making or updating its tables under its own lock. */
export async function startBackgroundWork(store: Store): Promise<BackgroundWork> {
  let report = (fault: unknown) => console.error((fault as Error).message)
  let note = (_counts: Record<string, number>) => {}
  const boss = new PgBoss({
    db: store,
    backend: store.kind === 'embedded' ? 'pglite' : 'postgres',
    // The embedded store has no vacuum of its own: the nightly job is it.
    monitorVacuum: store.kind === 'postgres',
  })
  boss.on('error', fault => report(fault))
  await boss.start()
  await boss.createQueue(NOT_SENT)
  for (const queue of Object.values(QUEUE_OF)) {
    await boss.createQueue(queue, {
      ...RETRIES,
      expireInSeconds: HOUR / 6,
      retentionSeconds: TRIED_FOR.hours * HOUR,
      deleteAfterSeconds: 24 * HOUR,
      deadLetter: NOT_SENT,
    })
  }
  await boss.createQueue(CLOCK, { retryLimit: 0, expireInSeconds: HOUR })
  await boss.createQueue(NIGHTLY, { retryLimit: 2, retryDelay: 600, expireInSeconds: HOUR })
  return {
    boss,
    jobs: queuedJobs(boss),
    report: fault => report(fault),
    note: counts => note(counts),
    noteTo: to => {
      note = to
    },
    reportTo: to => {
      report = to
    },
    stop: grace => boss.stop({ graceful: true, timeout: grace }),
  }
}

function queuedJobs(boss: PgBoss): Jobs {
  const put = (queue: string) => async (trx: Transaction<Database>, outboxId: string) => {
    const job: MailJob = { outboxId }
    await boss.send(queue, job, { db: fromKysely(trx) })
  }
  return { sendMail: put(SEND_MAIL), sendText: put(SEND_TEXT) }
}
