import { answerJobs } from '../../src/limits/thread.ts'

const seen = new Set<object>()

// A program of a thread that does what the tests of threads need.
answerJobs({
  say: (input: string, shared: object) => {
    seen.add(shared)
    return { input, shared, sharedSoFar: seen.size }
  },
  waitFor: (signal: Int32Array) => {
    Atomics.wait(signal, 0, 0)
    return 'waited'
  },
  fail: () => {
    throw new RangeError('out of it')
  },
  die: () => process.exit(3),
})
