/** Run before each file of a project that runs one at a time: waits until it is this file's turn. */
import { inject } from 'vitest'
import { FolderInUse, lockFolder } from '../../src/db/lock.ts'
import { until } from './until.ts'

const LONGEST = 3 * 60 * 60 * 1000

// Each file has a process of its own, and the lock is free when that ends.
await until(
  () => {
    try {
      return lockFolder(inject('turns')!)
    } catch (error) {
      if (error instanceof FolderInUse) return false
      throw error
    }
  },
  { within: LONGEST, what: 'its turn' },
)
