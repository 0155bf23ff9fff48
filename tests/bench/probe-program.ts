import { setTimeout } from 'node:timers/promises'

/** Asks each of some addresses again and again, one request at a time, with a pause between. */
interface Probe {
  asks: { url: string; cookie?: string }[]
  seconds: number
}

/** Milliseconds, by address. */
export type Waits = Record<string, { p95: number; most: number; asked: number }>

const PAUSE = 20

const { asks, seconds } = JSON.parse(process.argv[2]!) as Probe
const waits = await Promise.all(asks.map(async ask => [ask.url, await waitsFor(ask)] as const))
console.log(JSON.stringify(Object.fromEntries(waits)))

async function waitsFor({ url, cookie }: Probe['asks'][number]): Promise<Waits[string]> {
  const end = performance.now() + seconds * 1000
  const found: number[] = []
  while (performance.now() < end) {
    const start = performance.now()
    const answer = await fetch(url, { headers: cookie ? { cookie } : {}, redirect: 'manual' })
    await answer.arrayBuffer()
    if (answer.status !== 200) throw new Error(`${url} answered ${answer.status}`)
    found.push(performance.now() - start)
    await setTimeout(PAUSE)
  }
  found.sort((a, b) => a - b)
  return { p95: found[Math.floor(found.length * 0.95)]!, most: found.at(-1)!, asked: found.length }
}
