import { afterEach, expect, test } from 'vitest'
import { ThreadLost, Threads, ThreadsBusy } from '../../src/limits/threads.ts'

const PROGRAM = new URL('./program.ts', import.meta.url)
const RATES = { units: 'us' }

let threads: Threads
const start = (waiting: number) => {
  threads = new Threads(PROGRAM, { threads: 1, waiting })
  return threads
}
afterEach(() => threads.close())

const say = (input: string, shared: object = RATES) =>
  threads.run<{ input: string; shared: object; sharedSoFar: number }>('say', input, shared)

test('a job is answered, and what all share is sent once for as long as it is the same', async () => {
  await start(5).warm()
  const other = { units: 'metric' }
  const answers = await Promise.all([say('one'), say('two'), say('three', other), say('four', other)])
  expect(answers.map(({ input }) => input)).toEqual(['one', 'two', 'three', 'four'])
  expect(answers.map(({ shared }) => shared)).toEqual([RATES, RATES, other, other])
  expect(answers.map(({ sharedSoFar }) => sharedSoFar)).toEqual([1, 1, 2, 2])
})

test('of more jobs than may wait the next is refused; once there is room, it isn’t', async () => {
  start(1)
  const signal = new Int32Array(new SharedArrayBuffer(4))
  const held = threads.run('waitFor', signal, RATES)
  const waiting = say('waiting')
  await expect(say('too many')).rejects.toThrow(ThreadsBusy)
  Atomics.store(signal, 0, 1)
  Atomics.notify(signal, 0)
  expect(await held).toBe('waited')
  expect((await waiting).input).toBe('waiting')
  expect((await say('room')).input).toBe('room')
})

test('a thread that dies is replaced; its job is lost, and those that wait are not', async () => {
  start(5)
  const dying = threads.run('die', null, RATES)
  const waiting = say('waiting')
  await expect(dying).rejects.toThrow(ThreadLost)
  expect(await waiting).toMatchObject({ input: 'waiting', shared: RATES })
  await expect(threads.run('die', null, RATES)).rejects.toThrow(ThreadLost)
  expect((await say('after')).input).toBe('after')
})

test('a job that fails is told so, and the next one is done', async () => {
  start(5)
  await expect(threads.run('fail', null, RATES)).rejects.toThrow('out of it')
  // What isn't plain data can't be sent.
  await expect(threads.run('say', () => {}, RATES)).rejects.toThrow()
  expect((await say('after')).input).toBe('after')
})

test('closed, they take nothing on, and what waits is lost', async () => {
  start(5)
  const signal = new Int32Array(new SharedArrayBuffer(4))
  const lost = [threads.run('waitFor', signal, RATES), say('waiting')]
  const closed = threads.close()
  await expect(say('late')).rejects.toThrow(ThreadLost)
  const outcomes = await Promise.allSettled(lost)
  expect(outcomes.map(({ status }) => status)).toEqual(['rejected', 'rejected'])
  await closed
})

test('a program that can’t start refuses its jobs, one by one', async () => {
  threads = new Threads(new URL('./no-such-program.ts', import.meta.url), { threads: 1, waiting: 5 })
  const outcomes = await Promise.allSettled([say('one'), say('two')])
  expect(outcomes.map(({ status }) => status)).toEqual(['rejected', 'rejected'])
})
