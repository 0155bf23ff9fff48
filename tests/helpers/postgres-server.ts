import { execFile, spawn } from 'node:child_process'
import { once } from 'node:events'
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

/** Starts a real PostgreSQL server of its own, which ends with this process however that ends. */
export async function startServer(settings: string[] = []): Promise<PostgresServer> {
  const keeper = spawn(process.execPath, [join(import.meta.dirname, 'postgres-keeper.ts'), ...settings], {
    stdio: ['pipe', 'pipe', 'inherit'],
    detached: true,
  })
  const ended = once(keeper, 'exit')
  const line = await Promise.race([once(createInterface(keeper.stdout), 'line'), ended])
  if (keeper.exitCode !== null) throw new Error(`PostgreSQL did not start (exit ${keeper.exitCode})`)
  const { url, data, programs } = JSON.parse(line[0]) as {
    url: string
    data: string
    programs: ServerPrograms
  }
  return {
    url,
    restart: async () => {
      const how = ['restart', '-w', '-m', 'immediate', '-D', data, '-l', join(data, 'log')]
      await promisify(execFile)(programs.pg_ctl, how, serverUser())
    },
    stop: async () => {
      keeper.stdin.end()
      await ended
    },
  }
}
