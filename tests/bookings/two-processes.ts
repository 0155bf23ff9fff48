import { spawn } from 'node:child_process'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { expect, onTestFinished } from 'vitest'
import { Conflict } from '../../src/http/errors.ts'
import type { TestApp } from '../helpers/app.ts'
import { urlOf } from '../helpers/store.ts'
import { type Act, doAct } from './acts.ts'

/** Gets ready to do something at once: here on the embedded store, in a process of its own on a server. */
export async function elsewhere(app: TestApp, acts: Act[]): Promise<() => Promise<(string | null)[]>> {
  if (app.kind !== 'postgres') return () => here(app, acts)
  const told = JSON.stringify({ databaseUrl: await urlOf(app.store), at: app.deps.now().toString(), acts })
  const child = spawn(process.execPath, [join(import.meta.dirname, 'elsewhere.ts'), told], {
    stdio: ['pipe', 'pipe', 'inherit'],
  })
  onTestFinished(() => void child.kill())
  const lines = createInterface(child.stdout)[Symbol.asyncIterator]()
  expect((await lines.next()).value).toBe('ready')
  return async () => {
    child.stdin.end()
    return JSON.parse((await lines.next()).value!) as (string | null)[]
  }
}

/** Does all of it at once in this process; null for what was done, else why not: 'refused', or a fault whole. */
export async function here(app: TestApp, acts: Act[]): Promise<(string | null)[]> {
  const done = await Promise.allSettled(acts.map(act => doAct(app.deps, act)))
  return done.map(one => {
    if (one.status === 'fulfilled') return null
    return one.reason instanceof Conflict ? 'refused' : String(one.reason?.stack ?? one.reason)
  })
}
