import { spawn } from 'node:child_process'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { expect, onTestFinished } from 'vitest'
import type { TestApp } from '../helpers/app.ts'
import { urlOf } from '../helpers/store.ts'
import { type Act, doActs, type Said } from './acts.ts'

/**
 * Gets ready to do something, all at once unless told in how many lanes: here on the embedded store, in a process of its own
 * on a server.
 */
export async function elsewhere(
  app: TestApp,
  acts: Act[],
  lanes = acts.length,
): Promise<() => Promise<Said[]>> {
  if (app.kind !== 'postgres') return () => here(app, acts, lanes)
  const told = JSON.stringify({
    databaseUrl: await urlOf(app.store),
    at: app.deps.now().toString(),
    ...{ acts, lanes },
  })
  const child = spawn(process.execPath, [join(import.meta.dirname, 'elsewhere.ts')], {
    stdio: ['pipe', 'pipe', 'inherit'],
  })
  onTestFinished(() => void child.kill())
  child.stdin.write(`${told}\n`)
  const lines = createInterface(child.stdout)[Symbol.asyncIterator]()
  expect((await lines.next()).value).toBe('ready')
  return async () => {
    child.stdin.end()
    return JSON.parse((await lines.next()).value!) as Said[]
  }
}

/** Does it in this process. */
export const here = (app: TestApp, acts: Act[], lanes = acts.length) => doActs(app.deps, acts, lanes)
