import { setImmediate } from 'node:timers/promises'
import { expect, test } from 'vitest'
import { Hold } from '../../src/limits/hold.ts'

const HOUR = 3_600_000

async function stateOf(waiting: Promise<void>): Promise<'waits' | 'done'> {
  return Promise.race([waiting.then(() => 'done' as const), setImmediate('waits' as const)])
}

test('who is held waits; of more than can be held the next isn’t', async () => {
  const hold = new Hold(HOUR)
  const held = Array.from({ length: 200 }, () => hold.wait())
  const next = hold.wait()
  await next
  expect(await stateOf(held[0]!)).toBe('waits')
  expect(await stateOf(held[199]!)).toBe('waits')
})

test('nobody is held where no time is said', async () => {
  const waiting = new Hold(0).wait()
  await waiting
  expect(await stateOf(waiting)).toBe('done')
})
