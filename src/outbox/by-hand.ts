import { sql } from 'kysely'
import type { Deps } from '../deps.ts'
import { hasGateway } from './gateway.ts'
import { type OutboxMessage, selectMessages } from './queries.ts'

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
  const waiting = await waitingFor(deps)
  if (!waiting) return 0
  const { count } = await deps.db
    .selectFrom('outbox')
    .select(sql<number>`count(*)`.as('count'))
    .where(waiting)
    .executeTakeFirstOrThrow()
  return count
}

/** The messages to homeowners that wait to be passed on by hand, oldest first. */
export async function findByHand(deps: Pick<Deps, 'db' | 'config' | 'now'>): Promise<OutboxMessage[]> {
  const waiting = await waitingFor(deps)
  return waiting ? selectMessages(deps.db).where(waiting).orderBy('outbox.made_at').execute() : []
}

async function waitingFor(deps: Pick<Deps, 'db' | 'config' | 'now'>) {
  const byHand = await waysByHand(deps)
  const ways = (['mail', 'text'] as const).filter(way => byHand[way])
  if (ways.length === 0) return null
  return sql<boolean>`outbox.recipient = 'homeowner' and outbox.sent_at is null and outbox.way in (${sql.join(ways)})
    and outbox.tried_from >= ${deps.now().subtract(WAITS_FOR_HAND).toString()}
    and coalesce(outbox.last_fault, '') !~ '^(dropped|stopped): '`
}
