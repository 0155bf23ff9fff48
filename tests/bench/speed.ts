import type { Shot } from 'autocannon'
import { bedsAsJson } from './beds.ts'
import type { Fire, Fired } from './fire-program.ts'
import { run, start } from './programs.ts'
import { ratioLine } from './report.ts'
import type { Service } from './service.ts'

const ROUNDS = 5
const SECONDS = 1

const JSON_BODY = { 'content-type': 'application/json' }
const CASES: [what: string, target: number, shot: Shot][] = [
  ['GET /', 0.6, { method: 'GET', path: '/' }],
  ['POST /ballpark, ten beds', 0.03, post(bedsAsJson(10, false))],
  ['POST /ballpark, ten beds and what would narrow it', 0.012, post(bedsAsJson(10, true))],
]

function post(body: string): Shot {
  return { method: 'POST', path: '/ballpark', headers: JSON_BODY, body }
}

/** Requests a second, as ratios to a bare server that sends the same bytes, in turns. */
export async function measureSpeed({ address }: Service): Promise<void> {
  for (const [what, target, shot] of CASES) {
    const bytes = await answerOf(address, shot)
    const told =
      shot.method === 'GET' ? { page: bytes, answers: {} } : { page: '', answers: { '/ballpark': bytes } }
    const bare = await start<{ address: string }>('bare-program.ts', told)
    const both = async () => {
      const theirs = await fire(bare.says.address, shot)
      return (await fire(address, shot)) / theirs
    }
    await both()
    const ratios: number[] = []
    for (let round = 0; round < ROUNDS; round++) ratios.push(await both())
    await bare.stop()
    ratioLine(what, ratios, target)
  }
}

async function answerOf(address: string, { path, ...asked }: Shot): Promise<string> {
  const answer = await fetch(address + path, asked)
  if (answer.status !== 200) throw new Error(`${path} answered ${answer.status}`)
  return answer.text()
}

async function fire(url: string, shot: Shot): Promise<number> {
  const told: Fire = { url, shots: [shot], connections: 10, seconds: SECONDS, addresses: 1 << 17 }
  const { perSecond, byStatus } = await run<Fired>('fire-program.ts', told)
  if (Object.keys(byStatus).join() !== '200') throw new Error(`${url} answered ${JSON.stringify(byStatus)}`)
  return perSecond
}
