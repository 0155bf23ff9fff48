import { type Kysely, sql } from 'kysely'
import type { Way } from '../db/schema/letters.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { hasGateway } from './gateway.ts'
import type { OutboxMessage } from './queries.ts'

/** For how long a message waits to be passed on by hand; after that it is stale news. */
export const WAITS_FOR_HAND = { hours: 24 * 14 }

/** Which ways have nothing that sends by itself. */
export interface ByHand {
  mail: boolean
  text: boolean
}

export async function waysByHand({ db, config }: Pick<Deps, 'db' | 'config'>): Promise<ByHand> {
  return { mail: !config.smtpUrl, text: !(await hasGateway(db)) }
}

/** Whether a message has waited for a hand too long. */
export function isStale({ tried_from }: Pick<OutboxMessage, 'tried_from'>, now: Temporal.Instant): boolean {
  return Temporal.Instant.compare(tried_from, now.subtract(WAITS_FOR_HAND)) < 0
}

/** How many messages to homeowners wait to be passed on by hand. */
export async function countByHand(deps: Pick<Deps, 'db' | 'config' | 'now'>): Promise<number> {
  const byHand = await waysByHand(deps)
  const ways = (['mail', 'text'] as const).filter(way => byHand[way])
  return ways.length === 0 ? 0 : countWaiting(deps.db, ways, deps.now().subtract(WAITS_FOR_HAND))
}

async function countWaiting(db: Kysely<Database>, ways: Way[], since: Temporal.Instant) {
  const { count } = await db
    .selectFrom('outbox')
    .select(sql<number>`count(*)`.as('count'))
    .where('recipient', '=', 'homeowner')
    .where('sent_at', 'is', null)
    .where('way', 'in', ways)
    .where('tried_from', '>=', since.toString())
    .where(sql<boolean>`coalesce(last_fault, '') !~ '^(dropped|stopped): '`)
    .executeTakeFirstOrThrow()
  return count
}
