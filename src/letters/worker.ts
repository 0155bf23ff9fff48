import type { Job, JobResult } from 'pg-boss'
import { endPastHolds } from '../bookings/day-asked.ts'
import { lapseQuotes } from '../bookings/not-this-time.ts'
import { findBusiness } from '../business/queries.ts'
import { closeHolidaysAhead } from '../days/days-off.ts'
import { type Store, vacuum } from '../db/open.ts'
import { sweepKept } from '../privacy/sweep.ts'
import { sweepBudgets } from '../requests/maybe-junk/budgets.ts'
import { sweepMaybeJunk } from '../requests/maybe-junk/sweep.ts'
import type { Outcome } from './account-letter.ts'
import { deliver, deliverText } from './deliver.ts'
import { dropOvertaken } from './drop-overtaken.ts'
import { type BackgroundWork, CLOCK, type MailJob, NIGHTLY, SEND_MAIL, SEND_TEXT } from './jobs.ts'
import type { LetterDeps } from './letter.ts'
import { sweepMailHours } from './mail-limits.ts'
import { writeReminders } from './reminders.ts'
import { type Mailer, smtpMailer } from './smtp.ts'
import { sweepReplies } from './text-replies.ts'

const STATUS = { done: 'completed', stopped: 'deadletter', again: 'failed' } as const

/**
 * Begins to work off what is queued: mail, when there is a mail server, texts, and what is due every night, `lastly` at
 * the end of that.
 */
export async function takeUpWork(
  work: BackgroundWork,
  deps: LetterDeps,
  store: Store,
  lastly: () => Promise<void> = async () => {},
): Promise<void> {
  await work.boss.work(NIGHTLY, async () => {
    await lapseQuotes(deps)
    await closeHolidaysAhead(deps)
    await sweepMailHours(deps.db, deps.now())
    // What goes wrong with one row must not keep the night's backup from being made.
    await sweepKept(deps).then(work.note, work.report)
    await sweepMaybeJunk(deps.db, deps.now())
    await sweepReplies(deps.db, deps.now())
    await vacuum(store)
    await lastly()
  })
  const business = await findBusiness(deps.db)
  // A machine that is off at night does it once it is on again.
  await work.boss.schedule(NIGHTLY, '30 3 * * *', null, {
    tz: business?.time_zone ?? 'UTC',
    missed: 'once',
  })
  await work.boss.work(CLOCK, async () => {
    await endPastHolds(deps)
    await writeReminders(deps)
    await dropOvertaken(deps)
    await sweepBudgets(deps.db, deps.now())
  })
  await work.boss.schedule(CLOCK, '*/15 * * * *', null, { tz: 'UTC' })
  await sendTexts(work, deps)
  if (deps.config.smtpUrl) await sendMail(work, deps, smtpMailer(deps.config.smtpUrl))
}

/** Sends what is queued by a mail server, one after another: a small one takes many at once for abuse. */
export async function sendMail(work: BackgroundWork, deps: LetterDeps, mailer: Mailer): Promise<void> {
  await workOff(work, SEND_MAIL, outboxId => deliver(deps, mailer, outboxId))
}

/** Hands the texts that are queued to the gateway. */
async function sendTexts(work: BackgroundWork, deps: LetterDeps): Promise<void> {
  await workOff(work, SEND_TEXT, outboxId => deliverText(deps, outboxId))
}

async function workOff(work: BackgroundWork, queue: string, send: (outboxId: string) => Promise<Outcome>) {
  const options = { batchSize: 5, burstWhenBatchFull: true, perJobResults: true } as const
  await work.boss.work<MailJob, unknown, typeof options>(queue, options, async jobs => {
    const results: JobResult[] = []
    for (const job of jobs) results.push({ id: job.id, status: await statusOf(work, send, job) })
    return results
  })
}

async function statusOf(
  work: BackgroundWork,
  send: (outboxId: string) => Promise<Outcome>,
  job: Job<MailJob>,
) {
  try {
    return STATUS[await send(job.data.outboxId)]
  } catch (fault) {
    work.report(fault)
    return STATUS.again
  }
}
