import { type Kysely, sql } from 'kysely'
import type { Database } from '../db/schema.ts'

/** What is not sent: how many messages wait, the oldest of them and of its emails, and how many were not accepted. */
export async function findUnsent(db: Kysely<Database>) {
  const { rows } = await sql<{
    waiting: number
    stopped: number
    oldest: string | null
    oldest_mail: string | null
  }>`
    select count(*) filter (where waits) as waiting, count(*) filter (where fault ~ '^stopped: ') as stopped,
      min(made_at) filter (where waits) as oldest, min(made_at) filter (where waits and way = 'mail') as oldest_mail
    from (select made_at, way, fault, fault !~ '^(dropped|stopped): ' as waits
      from (select made_at, way, coalesce(last_fault, '') as fault from outbox where sent_at is null) as unsent
    ) as told`.execute(db)
  return rows[0]!
}
