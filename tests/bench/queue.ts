import { openStore, type Store } from '../../src/db/open.ts'
import { DEADLINES } from '../../src/db/postgres-pool.ts'
import { findNews, findQueue } from '../../src/queue/list.ts'
import { searchQueue } from '../../src/queue/search.ts'
import { countSteps } from '../../src/queue/steps.ts'
import { startServer } from '../helpers/postgres-server.ts'
import { fillQueue } from './fill-queue.ts'
import { listen, recorded } from './recorder.ts'
import { line } from './report.ts'
import { type Service, startService } from './service.ts'

/**
 * The queue and its search with a hundred times as many requests, on PostgreSQL: how much longer the whole page takes, by
 * turns in the same run, and by which indexes the database finds what it shows. `node tests/bench/queue.ts` alone.
 */
const [FEW, MANY] = [1_000, 100_000]
const ROUNDS = 40
const CASES: [what: string, path: string, most: number][] = [
  ['the queue', '/queue', 1.3],
  ['one step from a row on', '/queue?step=Call', 1.3],
  ['a search that finds three', '/queue?q=quagga', 2],
  ['a phone number', '/queue?q=(555)+000-0777', 2],
  ['a number', '/queue?q=26-000777', 2],
  ['a name that many have', '/queue?q=hazel', 2],
  ['a name and a street', '/queue?q=hazel+oak', 2],
  ['two letters', '/queue?q=oa', 2],
]
/** What grows with the requests; the other tables fit into a page. */
const LARGE = /Seq Scan on (?:quote_request|request_text|customer|place|ballpark|history|outbox|quote)\b/

const PATIENT = { ...DEADLINES, query: 600_000 }

const server = await startServer()
const admin = await openStore({ dataDir: '', databaseUrl: server.url })
const [few, many] = [await filled('few', FEW), await filled('many', MANY)]

console.log(`The queue with ${MANY} requests beside ${FEW}, as ratios of what a whole page takes`)
for (const [what, path, most] of CASES) {
  const times: [number[], number[]] = [[], []]
  for (let round = -5; round < ROUNDS; round++)
    for (const [nth, { service }] of [few, many].entries()) {
      const took = await timeOf(service, path)
      if (round >= 0) times[nth]!.push(took)
    }
  const [short, long] = times.map(quarter) as [number, number]
  const measured = `${(long / short).toFixed(2)} (${short.toFixed(1)} to ${long.toFixed(1)} ms)`
  line(what, measured, `at most ${most}`, long / short <= most)
}

listen()
console.log(`\nBy which the database finds it, with ${MANY} requests`)
const at = { now: Temporal.Now.instant(), today: Temporal.Now.plainDateISO().toString() }
const everybody = { givenTo: null }
const ask: [string, () => Promise<unknown>][] = [
  [
    'rows and news',
    async () => [await findQueue(many.store.db, everybody, at), await findNews(many.store.db)],
  ],
  ['counts', () => countSteps(many.store.db, everybody, at)],
  ['a word', () => searchQueue(many.store.db, 'quagga', everybody, null)],
  ['a phone number', () => searchQueue(many.store.db, '(555) 000-0777', everybody, null)],
]
for (const [what, work] of ask) {
  const plan = (await Promise.all((await recorded(work)).filter(asks).map(explained))).flat()
  line(
    what,
    [...new Set(plan.flatMap(indexOf))].join(', '),
    'no whole table',
    !plan.some(one => LARGE.test(one)),
  )
}

for (const { service, store } of [few, many]) {
  await store.close()
  await service.stop()
}
await admin.close()
await server.stop()

async function filled(name: string, requests: number): Promise<{ service: Service; store: Store }> {
  await admin.executeSql(`create database ${name}`)
  const url = new URL(server.url)
  url.pathname = name
  const service = await startService(url.href)
  const store = await openStore({ dataDir: '', databaseUrl: url.href, deadlines: PATIENT })
  await fillQueue(store, requests)
  return { service, store }
}

async function timeOf({ address, cookie }: Service, path: string): Promise<number> {
  const began = performance.now()
  const answer = await fetch(address + path, { headers: { cookie } })
  const page = await answer.text()
  if (answer.status !== 200 || !page.includes('class="row"'))
    throw new Error(`${path} answered ${answer.status}`)
  return performance.now() - began
}

/** What three in four are slower than: others who use the machine make some slower, but none faster. */
function quarter(times: number[]): number {
  return times.sort((a, b) => a - b)[Math.floor(times.length / 4)]!
}

function asks({ text }: { text: string }): boolean {
  return /^\s*select\b/i.test(text)
}

async function explained({ text, values }: { text: string; values: readonly unknown[] }): Promise<string[]> {
  const { rows } = await many.store.executeSql(`explain (costs off) ${text}`, [...values])
  return rows.map(row => Object.values(row as object).join())
}

function indexOf(plan: string): string[] {
  return /(?:Index(?: Only)? Scan(?: Backward)? using|Bitmap Index Scan on) (\w+)/.exec(plan)?.slice(1) ?? []
}
