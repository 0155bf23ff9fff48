import { expect, onTestFinished, test } from 'vitest'
import { openStore } from '../../src/db/open.ts'
import { startBackgroundWork } from '../../src/letters/jobs.ts'
import { putInOutbox } from '../../src/outbox/outbox.ts'
import { startMailServer } from '../helpers/mail-server.ts'
import { startServer } from '../helpers/postgres-server.ts'
import { ownFolder, startBedwright } from '../helpers/process.ts'
import { BEDS, CAROL } from '../helpers/request-form.ts'
import { formBody, setUpAt, setUpLine } from '../helpers/set-up.ts'
import { until } from '../helpers/until.ts'

/** How many messages two processes send: 1,000 in the long run. */
const MESSAGES = Number(process.env.MESSAGES ?? 40)

test('two processes send what one database has to say: nothing is lost, and nothing comes twice', {
  timeout: 60_000 + MESSAGES * 500,
}, async () => {
  const [server, mailServer] = [await startServer(), await startMailServer()]
  onTestFinished(server.stop)
  onTestFinished(mailServer.stop)
  const environment = {
    DATABASE_URL: server.url,
    DATA_DIR: await ownFolder(),
    SECRET_KEY: 'a key for tests only, 32 characters or more',
    SMTP_URL: mailServer.url,
  }
  const one = startBedwright(environment)
  const first = await one.address()
  await setUpAt(first, new URL(await setUpLine(one)).pathname)
  await startBedwright(environment).address()
  const body = formBody({ ...BEDS, ...CAROL, submissionKey: crypto.randomUUID() })
  const sent = await fetch(`${first}/requests`, {
    method: 'POST',
    headers: { origin: first },
    body,
    redirect: 'manual',
  })
  expect(sent.status).toBe(303)

  const store = await openStore({ dataDir: '', databaseUrl: server.url })
  const work = await startBackgroundWork(store)
  const { id } = await store.db.selectFrom('quote_request').select('id').executeTakeFirstOrThrow()
  await store.db.transaction().execute(async trx => {
    for (let n = 0; n < MESSAGES; n++)
      await putInOutbox(trx, work.jobs, 'note-staff', 'owner', id, Temporal.Now.instant())
  })
  const allSent = async () => {
    // So many in an hour are held back; here the hours are over at once.
    await store.db.deleteFrom('mail_hour').execute()
    await store.executeSql(`update pgboss.job set start_after = now() where state = 'retry'`)
    const unsent = await store.db.selectFrom('outbox').select('id').where('sent_at', 'is', null).execute()
    return unsent.length === 0
  }
  await until(allSent, { within: 30_000 + MESSAGES * 400, what: 'every message to be sent' })
  const rows = await store.db.selectFrom('outbox').select('id').execute()
  await work.stop(5_000)
  await store.close()
  expect(rows.length).toBe(MESSAGES + 2)
  expect(mailServer.letters.map(({ messageId }) => messageId!).sort()).toEqual(
    rows.map(row => `<${row.id}@localhost>`).sort(),
  )
})
