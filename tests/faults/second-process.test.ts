import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { rm } from 'node:fs/promises'
import { join } from 'node:path'
import { text } from 'node:stream/consumers'
import { expect, onTestFinished, test } from 'vitest'
import { openStore } from '../../src/db/open.ts'
import { folderWithStore } from '../helpers/made-store.ts'
import { until } from '../helpers/until.ts'

const MAIN = join(import.meta.dirname, '../../src/main.ts')

test('a second process on a folder that is in use leaves within 2 s, with the reason in one line', async () => {
  const dataDir = await folderWithStore()
  onTestFinished(() => rm(dataDir, { recursive: true }))
  const first = await openStore({ dataDir })
  onTestFinished(first.close)
  await first.executeSql('create table crate as select 7 as id')

  // Tried again on a machine that is busy with something else: it is the program that is timed.
  await until(async () => (await refused(dataDir)) < 2_000, { within: 60_000, what: 'a refusal within 2 s' })
  expect((await first.executeSql('select id from crate')).rows).toEqual([{ id: 7 }])
})

/** Starts a second one, which must complain and leave, and gives the milliseconds that took. */
async function refused(dataDir: string): Promise<number> {
  const start = performance.now()
  const second = spawn(process.execPath, [MAIN], {
    env: { PATH: process.env.PATH, DATA_DIR: dataDir, PORT: '0' },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  const [said, complained] = await Promise.all([
    text(second.stdout),
    text(second.stderr),
    once(second, 'close'),
  ])
  expect(second.exitCode).toBe(1)
  expect(said).toBe('')
  expect(complained).toBe(`Another Bedwright is using the folder ${dataDir}. Stop it first.\n`)
  return performance.now() - start
}
