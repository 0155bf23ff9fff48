import type { Kysely, Transaction } from 'kysely'
import type { Config } from './config.ts'
import type { Database } from './db/schema.ts'
import type { Assets } from './http/assets.ts'
import type { Now } from './lib/dates.ts'
import type { Budget } from './load/budget.ts'
import type { Hold } from './load/hold.ts'
import type { Threads } from './load/threads.ts'

/** What the application is built from; main.ts makes it, and a test makes its own. */
export interface Deps {
  config: Config
  db: Kysely<Database>
  now: Now
  /** Makes the links: 32 characters or more. */
  secretKey: string
  assets: Assets
  jobs: Jobs
  load: Load
  /** Whether every page says that all of it is invented. */
  demo: boolean
}

/** What keeps one visitor from stalling the others. */
export interface Load {
  budget: Budget
  threads: Threads
  hold: Hold
}

/** Background work, put on in the transaction that causes it. */
export interface Jobs {
  sendMail(trx: Transaction<Database>, outboxId: string): Promise<void>
}
