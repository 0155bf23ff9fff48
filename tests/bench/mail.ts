import { openStore } from '../../src/db/open.ts'
import { startBackgroundWork } from '../../src/letters/jobs.ts'
import { putInOutbox } from '../../src/outbox/outbox.ts'
import { startMailServer } from '../helpers/mail-server.ts'
import { startServer } from '../helpers/postgres-server.ts'
import { BEDS, CAROL } from '../helpers/request-form.ts'
import { formBody } from '../helpers/set-up.ts'
import type { Waits } from './probe-program.ts'
import { run } from './programs.ts'
import { line } from './report.ts'
import { startService } from './service.ts'

/**
 * `node tests/bench/mail.ts`: how long pages take while messages go out one after another, beside how long they take
 * when none do, on PostgreSQL. What is measured is a ratio of the same run.
 */
const MESSAGES = 250
const SECONDS = 5
const TIMES_IDLE = 2

const [server, mailServer] = [await startServer(), await startMailServer()]
const service = await startService(server.url, { SMTP_URL: mailServer.url })
const { address, cookie } = service
const body = formBody({ ...BEDS, ...CAROL, submissionKey: crypto.randomUUID() })
const headers = { origin: address }
await fetch(`${address}/requests`, { method: 'POST', headers, body, redirect: 'manual' })
const store = await openStore({ dataDir: '', databaseUrl: server.url })
const work = await startBackgroundWork(store)
const { id } = await store.db.selectFrom('quote_request').select('id').executeTakeFirstOrThrow()
const asks = [{ url: `${address}/` }, { url: `${address}/queue`, cookie }]
const probe = () => run<Waits>('probe-program.ts', { asks, seconds: SECONDS })

await probe()
const idle = await probe()
await store.db.transaction().execute(async trx => {
  for (let n = 0; n < MESSAGES; n++)
    await putInOutbox(trx, work.jobs, 'note-staff', 'owner', id, Temporal.Now.instant())
})
// So many in an hour are held back; here the hours are over at once.
const hours = setInterval(() => void store.db.deleteFrom('mail_hour').execute(), 50)
const before = mailServer.letters.length
const busy = await probe()
clearInterval(hours)
console.log(`  ${mailServer.letters.length - before} messages went out meanwhile`)
for (const { url } of asks) {
  const [was, is] = [idle[url]!.p95, busy[url]!.p95]
  const measured = `${is.toFixed(1)} ms (idle ${was.toFixed(1)})`
  const target = `within ${TIMES_IDLE} × idle`
  line(
    `${new URL(url).pathname} while mail goes out, 95th percentile`,
    measured,
    target,
    is <= TIMES_IDLE * was,
  )
}
await work.stop(2_000)
await store.close()
await service.stop()
await mailServer.stop()
await server.stop()
