import { randomUUID } from 'node:crypto'
import { cp, mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { FastifyInstance } from 'fastify'
import { buildApp } from '../../src/app.ts'
import { readConfig } from '../../src/config.ts'
import { openMigratedStore } from '../../src/db/migrate.ts'
import { openStore } from '../../src/db/open.ts'
import { setUpAddress } from '../../src/first-run/first-run.ts'
import { JunkWatch } from '../../src/junk/watch.ts'
import { type Opened, open } from '../../src/serve.ts'
import { SET_UP_FIELDS } from '../helpers/people.ts'
import { BEDS, CAROL } from '../helpers/request-form.ts'
import { formBody } from '../helpers/set-up.ts'
import { bareEmbedded, barePostgres } from './bare-store.ts'
import { listen, recorded, type Statement } from './recorder.ts'

/**
 * Sends quote requests through the whole application, and has the driver alone run what it ran for them, on a store
 * that was as that one, in one transaction for each: by turns. Says, of each turn, bare time ÷ our time.
 */
const { serverUrl, rounds, requests } = JSON.parse(process.argv[2]!) as {
  /** Of a PostgreSQL server; null for the embedded store. */
  serverUrl: string | null
  rounds: number
  requests: number
}

const ORIGIN = 'http://localhost:8080'
const FORM = { origin: ORIGIN, 'content-type': 'application/x-www-form-urlencoded' }
const folder = await mkdtemp(join(tmpdir(), 'bedwright-bench-'))
const [ours, theirs] = [join(folder, 'ours'), join(folder, 'theirs')]
const admin = serverUrl ? await openStore({ dataDir: '', databaseUrl: serverUrl }) : null
await admin?.executeSql('create database ours')

await withApp(async (server, { deps }) => {
  const path = new URL((await setUpAddress(deps))!).pathname
  await post(server, path, SET_UP_FIELDS)
})
if (admin) await admin.executeSql('create database theirs template ours')
else await cp(ours, theirs, { recursive: true })
const bare = serverUrl ? barePostgres(databaseAt(serverUrl, 'theirs')) : await bareEmbedded(theirs)

listen()
const ratios: number[] = []
await withApp(async server => {
  const form = { ...BEDS, ...CAROL, ...(await shownTo(server)) }
  let from = 0
  for (let round = -1; round < rounds; round++) {
    const ran: Statement[][] = []
    const our = await timed(async () => {
      for (let sent = 0; sent < requests; sent++) {
        from += 1
        const submissionKey = randomUUID()
        ran.push(
          await recorded(() =>
            post(server, '/requests', { ...form, submissionKey }, `198.18.0.${from % 250}`),
          ),
        )
      }
    })
    const their = await timed(async () => {
      for (const statements of ran) await bare.inTransaction(statements)
    })
    if (round >= 0) ratios.push(their / our)
  }
})
await bare.close()
await admin?.close()
await rm(folder, { recursive: true, force: true })
console.log(JSON.stringify(ratios))
process.exit(0)

/** The application on its store, which is closed again afterwards. */
async function withApp(use: (server: FastifyInstance, opened: Opened) => Promise<void>): Promise<void> {
  const databaseUrl = serverUrl ? { DATABASE_URL: databaseAt(serverUrl, 'ours') } : {}
  const config = readConfig({ PUBLIC_URL: ORIGIN, LOG_LEVEL: 'error', DATA_DIR: ours, ...databaseUrl })
  const opened = await open(await openMigratedStore(config), config, {
    now: Temporal.Now.instant,
    demo: false,
  })
  // The same is sent again and again, which would be held as maybe junk.
  opened.deps.load.junk = new JunkWatch(opened.deps.now, { holdFrom: Number.POSITIVE_INFINITY })
  const { server } = await buildApp(opened.deps)
  await use(server, opened)
  await server.close()
  await opened.deps.load.threads.close()
  await opened.work.stop(1000)
  await opened.store.close()
}

async function post(
  server: FastifyInstance,
  url: string,
  fields: Record<string, string | string[]>,
  remoteAddress = '127.0.0.1',
): Promise<void> {
  const payload = formBody(fields).toString()
  const answer = await server.inject({ method: 'POST', url, headers: FORM, remoteAddress, payload })
  if (answer.statusCode !== 303) throw new Error(`${url} answered ${answer.statusCode}: ${answer.body}`)
}

// What the page before says that it showed is sent along by browsers.
async function shownTo(server: FastifyInstance): Promise<Record<string, string>> {
  const query = new URLSearchParams({ ...BEDS, postcode: CAROL.postcode })
  const page = await server.inject({ method: 'GET', url: `/request?${query}` })
  const hidden = (name: string) => new RegExp(`name="${name}" value="([^"]*)"`).exec(page.body)![1]!
  return { shown: hidden('shown'), shownPostcode: hidden('shownPostcode') }
}

function databaseAt(server: string, name: string): string {
  const url = new URL(server)
  url.pathname = name
  return url.href
}

async function timed(work: () => Promise<void>): Promise<number> {
  const start = performance.now()
  await work()
  return performance.now() - start
}
