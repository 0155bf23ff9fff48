import type { Load } from '../../src/deps.ts'
import { JunkWatch } from '../../src/junk/watch.ts'
import type { Now } from '../../src/lib/dates.ts'
import { Budget, type BudgetLimits, PHOTO_LIMITS } from '../../src/limits/budget.ts'
import { Guesses } from '../../src/limits/guesses.ts'
import { Hold } from '../../src/limits/hold.ts'
import { Space } from '../../src/limits/space.ts'
import { Threads } from '../../src/limits/threads.ts'

const UNBOUNDED = { most: Number.MAX_SAFE_INTEGER, perSecond: 1 }
const PROGRAM = new URL('../../src/requests/thread-program.ts', import.meta.url)

let threads: Threads | undefined

/** A load of its own that holds nobody; its threads are those of all tests of this worker, started when one is needed. */
export function testLoad(now: Now, limits?: BudgetLimits): Load {
  threads ??= new Threads(PROGRAM, { threads: 1, waiting: 32 })
  return {
    budget: new Budget(now, limits),
    photos: new Budget(now, PHOTO_LIMITS),
    space: new Space(),
    threads,
    hold: new Hold(0),
    guesses: new Guesses(now, { network: UNBOUNDED, all: UNBOUNDED }),
    junk: new JunkWatch(now, { holdFrom: Number.POSITIVE_INFINITY }),
  }
}
