import { execFile, spawn } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { promisify } from 'node:util'
import { type ServerPrograms, serverUser } from './postgres-programs.ts'

export interface PostgresServer {
  url: string
  /** Stops it as a crash would, without finishing anything, and starts it again. */
  restart(): Promise<void>
  stop(): Promise<void>
}

/** Two servers: what the first acknowledges is on the second, which follows it. */
export interface ServerPair {
  url: string
  secondUrl: string
  /** Kills the first with all its processes, as the loss of its machine would. */
  killFirst(): Promise<void>
  /** Lets the second take writes. */
  promoteSecond(): Promise<void>
  stop(): Promise<void>
}

interface Kept {
  url: string
  data: string
  programs: ServerPrograms
  second?: { url: string; data: string }
}

const run = promisify(execFile)

/** Starts a real PostgreSQL server of its own, which ends with this process however that ends. */
export async function startServer(settings: string[] = []): Promise<PostgresServer> {
  const { kept, stop } = await startKeeper(settings)
  const { url, data, programs } = kept
  return {
    url,
    restart: async () => {
      const how = ['restart', '-w', '-m', 'immediate', '-D', data, '-l', join(data, 'log')]
      await run(programs.pg_ctl, how, serverUser())
    },
    stop,
  }
}

/** Starts two real PostgreSQL servers, of which one follows the other. */
export async function startPair(): Promise<ServerPair> {
  const { kept, stop } = await startKeeper(['--pair'])
  const { url, data, programs } = kept
  const second = kept.second!
  return {
    url,
    secondUrl: second.url,
    killFirst: async () => {
      const [pid] = readFileSync(join(data, 'postmaster.pid'), 'utf8').split('\n')
      for (const each of [pid!, ...childrenOf(pid!)]) process.kill(Number(each), 'SIGKILL')
    },
    promoteSecond: async () => {
      await run(programs.pg_ctl, ['promote', '-w', '-D', second.data], serverUser())
    },
    stop,
  }
}

/** The processes that one has started, by their ids; on Linux alone, elsewhere none: they end by themselves a moment later. */
function childrenOf(pid: string): string[] {
  if (!existsSync('/proc/self/task')) return []
  return readFileSync(`/proc/${pid}/task/${pid}/children`, 'utf8').trim().split(' ').filter(Boolean)
}

async function startKeeper(settings: string[]): Promise<{ kept: Kept; stop: () => Promise<void> }> {
  const keeper = spawn(process.execPath, [join(import.meta.dirname, 'postgres-keeper.ts'), ...settings], {
    stdio: ['pipe', 'pipe', 'inherit'],
    detached: true,
  })
  const ended = once(keeper, 'exit')
  const line = await Promise.race([once(createInterface(keeper.stdout), 'line'), ended])
  if (keeper.exitCode !== null) throw new Error(`PostgreSQL did not start (exit ${keeper.exitCode})`)
  return {
    kept: JSON.parse(line[0]) as Kept,
    stop: async () => {
      keeper.stdin.end()
      await ended
    },
  }
}
