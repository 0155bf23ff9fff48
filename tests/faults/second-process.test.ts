import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { text } from 'node:stream/consumers'
import { expect, onTestFinished, test } from 'vitest'
import { startLoad } from './load.ts'

const MAIN = join(import.meta.dirname, '../../src/main.ts')

test('a second process on a folder that is in use leaves within 2 s, with the reason in one line', async () => {
  const dataDir = await mkdtemp(join(tmpdir(), 'bedwright-second-'))
  onTestFinished(() => rm(dataDir, { recursive: true }))
  const first = await startLoad({ dataDir, workers: 1, first: 1 })
  onTestFinished(first.kill)

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
  expect(performance.now() - start).toBeLessThan(2_000)
  expect(second.exitCode).toBe(1)
  expect(said).toBe('')
  expect(complained).toBe(`Another Bedwright is using the folder ${dataDir}: stop it first.\n`)

  const acknowledged = first.acks.length
  expect(await first.stop()).toBe(0)
  expect(first.acks.length).toBeGreaterThanOrEqual(acknowledged)
  expect(first.uncaught).toEqual([])
})
