import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { expect } from 'vitest'
import type { Store, StoreOptions } from '../../src/db/open.ts'

export interface Ack {
  id: number
  worker: number
  ms: number
}

export interface Load {
  acks: Ack[]
  failures: Ack[]
  uncaught: string[]
  /** Kills the process as the system would in need, and waits until it is gone. */
  kill(): Promise<void>
  /** Lets what has begun finish, and gives the exit code. */
  stop(): Promise<number | null>
}

/** Starts a process that writes to the store with some workers at once; it is ready when this returns. */
export async function startLoad(options: StoreOptions & { workers: number; first: number }): Promise<Load> {
  const writer = join(import.meta.dirname, 'writer.ts')
  const child = spawn(process.execPath, [writer, JSON.stringify(options)], {
    stdio: ['pipe', 'pipe', 'inherit'],
  })
  const closed = once(child, 'close')
  const load: Load = {
    acks: [],
    failures: [],
    uncaught: [],
    kill: async () => {
      child.kill('SIGKILL')
      await closed
    },
    stop: async () => {
      child.stdin.end()
      await closed
      return child.exitCode
    },
  }
  const ready = Promise.withResolvers<void>()
  closed.then(() => ready.reject(new Error('The writer ended before it was ready')))
  createInterface(child.stdout).on('line', line => {
    const [verb, id, worker, ms] = line.split(' ')
    if (verb === 'ready') ready.resolve()
    else if (verb === 'uncaught') load.uncaught.push(line)
    else
      load[verb === 'ack' ? 'acks' : 'failures'].push({
        id: Number(id),
        worker: Number(worker),
        ms: Number(ms),
      })
  })
  await ready.promise
  return load
}

/** Every acknowledged entry is in the store, and every entry there is whole. */
export async function expectNothingLost(store: Store, acks: Ack[]): Promise<void> {
  const { rows } = await store.executeSql(`
    select entry.id, count(line) as lines from entry left join entry_line on entry_id = id group by entry.id`)
  const lines = new Map((rows as { id: number; lines: number }[]).map(row => [row.id, row.lines]))
  expect(acks.filter(ack => !lines.has(ack.id))).toEqual([])
  expect([...lines].filter(([, count]) => count !== 2)).toEqual([])
  expect(acks.length).toBeGreaterThan(0)
}

/** How often a fault is tried: a few times in every run, and as often as `ROUNDS` says in a long one. */
export const ROUNDS = Number(process.env.ROUNDS ?? 3)
