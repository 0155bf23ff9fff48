import type { Config } from '../config.ts'
import type { Store } from '../db/open.ts'
import type { Arrivals } from '../http/arrivals.ts'
import type { Now } from '../lib/dates.ts'

/** What is looked at. */
export interface LookedAt {
  config: Config
  db: Store['db']
  kind: Store['kind']
  now: Now
  /** Null where none has been made yet. */
  secretKey: string | null
  /** How requests arrived; absent where another process answers them. */
  arrivals?: Arrivals | undefined
}

/** Something that was looked at: whether it is well, what is the case, and what to do about it. */
export interface Check {
  what: string
  /** 'look' works, but is worth a look; 'wrong' doesn't work, or soon won't. */
  is: 'good' | 'look' | 'wrong'
  /** Plain sentences, for the owner. */
  says: string
  /** What to do; '' where there is nothing. */
  todo: string
}

export function good(what: string, says: string): Check {
  return { what, is: 'good', says, todo: '' }
}

export function look(what: string, says: string, todo: string): Check {
  return { what, is: 'look', says, todo }
}

export function wrong(what: string, says: string, todo: string): Check {
  return { what, is: 'wrong', says, todo }
}
