import type { Job, JobResult } from 'pg-boss'
import { lapseQuotes } from '../bookings/not-this-time.ts'
import { findBusiness } from '../business/queries.ts'
import { type Store, vacuum } from '../db/open.ts'
import { sweepPhotos } from '../requests/photos/sweep.ts'
import { deliver } from './deliver.ts'
import { type BackgroundWork, type MailJob, NIGHTLY, SEND_MAIL } from './jobs.ts'
import type { LetterDeps } from './letter.ts'
import { sweepMailHours } from './mail-limits.ts'
import { type Mailer, smtpMailer } from './smtp.ts'

const STATUS = { done: 'completed', stopped: 'deadletter', again: 'failed' } as const

/** Begins to work off what is queued: mail, when there is a mail server, and what is due every night. */
export async function takeUpWork(work: BackgroundWork, deps: LetterDeps, store: Store): Promise<void> {
  await work.boss.work(NIGHTLY, async () => {
    await lapseQuotes(deps)
    await sweepMailHours(deps.db, deps.now())
    await sweepPhotos(deps.db, deps.now())
    await vacuum(store)
  })
  const business = await findBusiness(deps.db)
  await work.boss.schedule(NIGHTLY, '30 3 * * *', null, { tz: business?.time_zone ?? 'UTC' })
  if (deps.config.smtpUrl) await sendMail(work, deps, smtpMailer(deps.config.smtpUrl))
}

/** Sends what is queued by a mail server, one after another: a small one takes many at once for abuse. */
export async function sendMail(work: BackgroundWork, deps: LetterDeps, mailer: Mailer): Promise<void> {
  const options = { batchSize: 5, burstWhenBatchFull: true, perJobResults: true } as const
  await work.boss.work<MailJob, unknown, typeof options>(SEND_MAIL, options, async jobs => {
    const results: JobResult[] = []
    for (const job of jobs) results.push({ id: job.id, status: await send(work, deps, mailer, job) })
    return results
  })
}

async function send(work: BackgroundWork, deps: LetterDeps, mailer: Mailer, job: Job<MailJob>) {
  try {
    return STATUS[await deliver(deps, mailer, job.data.outboxId)]
  } catch (fault) {
    work.report(fault)
    return STATUS.again
  }
}
