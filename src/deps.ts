import type { Kysely, Selectable, Transaction } from 'kysely'
import type { Config } from './config.ts'
import type { Kept } from './db/kept.ts'
import type { Store } from './db/open.ts'
import type { BusinessTable } from './db/schema/business.ts'
import type { RateTableTable } from './db/schema/rates.ts'
import type { Database } from './db/schema.ts'
import type { Arrivals } from './http/arrivals.ts'
import type { Assets } from './http/assets.ts'
import type { Answered } from './http/log.ts'
import type { JunkWatch } from './junk/watch.ts'
import type { Now } from './lib/dates.ts'
import type { Budget } from './limits/budget.ts'
import type { Guesses } from './limits/guesses.ts'
import type { Hold } from './limits/hold.ts'
import type { Space } from './limits/space.ts'
import type { Threads } from './limits/threads.ts'

/** What the application is built from; main.ts makes it, and a test makes its own. */
export interface Deps {
  config: Config
  db: Kysely<Database>
  /** Which of the two stores that is. */
  kind: Store['kind']
  now: Now
  /** For showing alone: what deals in money reads the rates within its own transaction. Not to be asked within one. */
  standing: Kept<Standing>
  /** Makes the links: 32 characters or more. */
  secretKey: string
  assets: Assets
  jobs: Jobs
  load: Load
  /** How requests arrive: through which proxy. */
  arrivals: Arrivals
  /** Whether every page says that all of it is invented. */
  demo: boolean
  /** Notes outside the store who was erased in it; absent where nothing is kept there. */
  noteErased?: (() => Promise<void>) | undefined
  /** Hears of every answer, where that is measured. */
  answered?: Answered | undefined
}

/** What keeps one visitor from stalling the others. */
export interface Load {
  budget: Budget
  /** Of its own for photos: another thread unpacks them, and whoever types must not wait for that. */
  photos: Budget
  /** What may be sent to us at once. */
  space: Space
  threads: Threads
  hold: Hold
  guesses: Guesses
  /** Weighs what strangers send. */
  junk: JunkWatch
}

/** What all public pages rest on and hardly ever changes; frozen. Both are undefined before set-up. */
export interface Standing {
  /** The rate table in force. */
  rates: Pick<Selectable<RateTableTable>, 'id' | 'version' | 'body'> | undefined
  business: Selectable<BusinessTable> | undefined
}

/** Background work, put on in the transaction that causes it. */
export interface Jobs {
  sendMail(trx: Transaction<Database>, outboxId: string): Promise<void>
  sendText(trx: Transaction<Database>, outboxId: string): Promise<void>
}
