import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtemp, rm } from 'node:fs/promises'
import { type AddressInfo, createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { inject, onTestFinished } from 'vitest'
import { folderWithStore } from './made-store.ts'
import { until } from './until.ts'

export interface Bedwright {
  /** Lines of the standard output that are not the log's. */
  said: string[]
  complained: string[]
  child: ChildProcess
  /** Waits for the line with the address, a minute unless told otherwise, and gives that. */
  address(within?: number): Promise<string>
  /** Waits for its end, and gives the exit code. */
  ended(): Promise<number | null>
}

export type Environment = Record<string, string>

const ROOT = join(import.meta.dirname, '../..')
// What Node has made of the files once needn't be made for each of dozens of processes.
const COMPILED = join(ROOT, 'node_modules/.cache/compiled')

/** Starts Bedwright in a process of its own, on a port of its own; killed when the test is over, if it still runs. */
export function startBedwright(
  environment: Environment,
  program = 'src/main.ts',
  words: string[] = [],
): Bedwright {
  const bedwright = spawnBedwright(environment, program, words)
  onTestFinished(async () => {
    bedwright.child.kill('SIGKILL')
    await bedwright.ended()
  })
  return bedwright
}

/** The same for several tests at once: whoever starts it ends it. */
export function spawnBedwright(
  environment: Environment,
  program = 'src/main.ts',
  words: string[] = [],
): Bedwright {
  const own = { PATH: process.env.PATH, PORT: '0', LOG_LEVEL: 'error', NODE_COMPILE_CACHE: COMPILED }
  const child = spawn(process.execPath, [join(ROOT, program), ...words], {
    env: { ...own, ...environment },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  const closed = once(child, 'close')
  const said: string[] = []
  const complained: string[] = []
  createInterface(child.stdout).on('line', line => !line.startsWith('{') && said.push(line))
  createInterface(child.stderr).on('line', line => complained.push(line))
  const found = () => {
    if (child.exitCode !== null) throw new Error(`It ended: ${complained.join('\n')}`)
    return said.map(line => /is at (http\S+)/.exec(line)?.[1]).find(Boolean)
  }
  return {
    said,
    complained,
    child,
    address: (within = 60_000) => until(found, { within, what: 'the address' }),
    ended: async () => {
      await closed
      return child.exitCode
    },
  }
}

/** A port that nobody listens on at the moment. */
export async function freePort(): Promise<string> {
  const server = createServer().listen(0, '127.0.0.1')
  await once(server, 'listening')
  const { port } = server.address() as AddressInfo
  server.close()
  return String(port)
}

/** A folder that is there for one test. */
export async function ownFolder(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'bedwright-start-'))
  onTestFinished(() => rm(folder, { recursive: true, force: true }))
  return folder
}

/** The kind of store that this run of the test is for, before its first start. */
export async function noStoreYet(): Promise<Environment> {
  const folder = { DATA_DIR: await ownFolder() }
  if (inject('storeKind') === 'embedded') return folder
  const { testDatabase } = await import('./store.ts')
  return { ...folder, DATABASE_URL: await testDatabase() }
}

/** The same, empty but there, which saves the seconds that making an embedded one takes. */
export async function emptyStore(): Promise<Environment> {
  if (inject('storeKind') !== 'embedded') return noStoreYet()
  const DATA_DIR = await folderWithStore()
  onTestFinished(() => rm(DATA_DIR, { recursive: true, force: true }))
  return { DATA_DIR }
}
