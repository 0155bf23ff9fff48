import { bedsAsForm, bedsAsJson, hugeNumbers, unreadableCutOuts } from './beds.ts'
import type { Fire, Fired } from './fire-program.ts'
import type { Waits } from './probe-program.ts'
import { run } from './programs.ts'
import { line } from './report.ts'
import type { Service } from './service.ts'

const SECONDS = 6
const CONNECTIONS = 60
const BEDS = 40
const TIMES_IDLE = 3
const MOST = 1000

const LIVE = {
  'content-type': 'application/x-www-form-urlencoded',
  accept: 'text/html',
  'x-part': 'live',
}
const JSON_TYPE = { 'content-type': 'application/json' }
const posted = (headers: Record<string, string>, body: string) => {
  return { method: 'POST', path: '/ballpark', headers, body } as const
}
const SHOTS = [
  posted(LIVE, bedsAsForm(BEDS)),
  posted(JSON_TYPE, bedsAsJson(BEDS)),
  // As much as may be sent of what looks like little.
  posted(JSON_TYPE, hugeNumbers(9000)),
  posted(JSON_TYPE, unreadableCutOuts(30_000)),
]

/** How long others wait while 60 connections post forty beds, from one address and from many. */
export async function measureAttack({ address, cookie }: Service): Promise<void> {
  const asks = [{ url: `${address}/livez` }, { url: `${address}/queue`, cookie }]
  const probe = (seconds: number) => run<Waits>('probe-program.ts', { asks, seconds })
  await probe(1)
  const idle = await probe(4)
  for (const [from, addresses] of [
    ['one address', 1],
    ['many addresses', 1 << 12],
  ] as const) {
    const fire: Fire = { url: address, shots: SHOTS, connections: CONNECTIONS, seconds: SECONDS, addresses }
    const [fired, waits] = await Promise.all([run<Fired>('fire-program.ts', fire), probe(SECONDS)])
    console.log(`  attacked from ${from}: ${JSON.stringify(fired.byStatus)}`)
    for (const { url } of asks) {
      const [before, during] = [idle[url]!.p95, waits[url]!.p95]
      line(
        `${new URL(url).pathname} meanwhile, 95th percentile`,
        `${during.toFixed(1)} ms (idle ${before.toFixed(1)})`,
        `within ${TIMES_IDLE} × idle, ${MOST} ms`,
        during <= TIMES_IDLE * before && during < MOST,
      )
    }
  }
}
