import { type BackgroundWork, startBackgroundWork } from '../../src/letters/jobs.ts'
import { smtpMailer } from '../../src/letters/smtp.ts'
import { sendMail } from '../../src/letters/worker.ts'
import { messages } from '../../src/messages.ts'
import { type TestApp, testApp } from './app.ts'
import { openBusiness } from './people.ts'

export interface MailingApp {
  app: TestApp
  work: BackgroundWork
  /** Faults of the background work itself; a mail server that refuses is none. */
  faults: unknown[]
  /** Begins to send by a mail server. */
  sendBy(smtpUrl: string): Promise<void>
  /** Makes whatever waits for its next try due now. */
  makeDue(): Promise<void>
  close(): Promise<void>
}

/** A whole application with its business set up, whose mails go through the real job queue. */
export async function mailingApp(): Promise<MailingApp> {
  const app = await testApp()
  const work = await startBackgroundWork(app.store)
  const faults: unknown[] = []
  work.reportTo(fault => faults.push(fault))
  app.deps.jobs = work.jobs
  await openBusiness(app)
  return {
    app,
    work,
    faults,
    sendBy: async smtpUrl => {
      app.deps.config = { ...app.deps.config, smtpUrl }
      await sendMail(work, { ...app.deps, messages }, smtpMailer(smtpUrl))
    },
    makeDue: async () => {
      await app.store.executeSql(`update pgboss.job set start_after = now() where state = 'retry'`)
    },
    close: async () => {
      await work.stop(5_000)
      await app.close()
    },
  }
}
