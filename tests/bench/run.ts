import { spawnSync } from 'node:child_process'
import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import { startServer } from '../helpers/postgres-server.ts'
import { measureAttack } from './attack.ts'
import { run } from './programs.ts'
import { ratioLine } from './report.ts'
import { startService } from './service.ts'
import { measureSpeed } from './speed.ts'

/**
 * `npm run bench`: how fast we are beside a bare server and a bare driver in the same run, by turns, on both stores; how
 * long others wait while somebody attacks; the parts of an estimate; and the queue with a hundred times as many requests. What is measured is printed beside its target;
 * times by themselves say more of the machine than of us.
 */
const SENDING = { postgres: 0.4, embedded: 0.5 }

console.log(`${availableParallelism()} processors, which whoever asks shares with whoever answers\n`)
const server = await startServer()
for (const kind of ['embedded', 'postgres'] as const) {
  const serverUrl = kind === 'postgres' ? server.url : null
  console.log(`On the ${kind} store, requests a second as ratios to a bare server: median, least and most`)
  const service = await startService(serverUrl)
  await measureSpeed(service)
  console.log('Sending a request, as a ratio to its statements alone')
  const ratios = await run<number[]>('sending-program.ts', { serverUrl, rounds: 5, requests: 30 })
  ratioLine('POST /requests, two beds', ratios, SENDING[kind])
  console.log('60 connections post forty beds')
  service.bound()
  await measureAttack(service)
  await service.stop()
  console.log()
}
await server.stop()
for (const program of ['units.ts', 'estimate.ts', 'queue.ts', 'mail.ts'])
  spawnSync(process.execPath, [join(import.meta.dirname, program)], { stdio: 'inherit' })
