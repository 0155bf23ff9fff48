import { sql } from 'kysely'
import type { Deps } from '../deps.ts'
import { TRIED_FOR } from '../letters/jobs.ts'
import { WAITS_FOR_HAND, waysByHand } from '../outbox/by-hand.ts'

/** What is not sent, told apart as the page Outbox does. */
export interface Unsent {
  /** How many go out by themselves, and how many are to be passed on by hand. */
  waiting: number
  by_hand: number
  /** How many were not accepted, and how many were tried for so long that nobody tries any more. */
  stopped: number
  given_up: number
  /** When the oldest of those that wait was made, either way, and the oldest email that goes out by itself; a summary's parts aside. */
  oldest: string | null
  oldest_mail: string | null
}

/**
 * Counts what is not sent. Letters about signing in have no request and no place in the Outbox: they wait like others,
 * and are out of date after that.
 */
export async function findUnsent({ db, config, now }: Pick<Deps, 'db' | 'config' | 'now'>): Promise<Unsent> {
  const byHand = await waysByHand({ db, config })
  const triedSince = now().subtract(TRIED_FOR).toString()
  const forHandSince = now().subtract(WAITS_FOR_HAND).toString()
  const { rows } = await sql<Unsent>`
    with unsent as (
      select made_at, way, for_digest, case
          when fault ~ '^dropped: ' then 'dropped'
          when fault ~ '^stopped: ' then case when listed then 'stopped' end
          when for_digest then 'waiting'
          when by_hand then case when recipient = 'homeowner' and tried_from >= ${forHandSince} then 'by hand' end
          when tried_from < ${triedSince} then case when listed then 'given up' end
          else 'waiting'
        end as state
      from (
        select *, coalesce(last_fault, '') as fault, quote_request_id is not null as listed,
          case way when 'mail' then ${byHand.mail}::boolean else ${byHand.text}::boolean end as by_hand
        from outbox
        where sent_at is null and not (${byHand.mail}::boolean and recipient = 'owner')
      ) as told
    )
    select count(*) filter (where state = 'waiting') as waiting,
      count(*) filter (where state = 'by hand') as by_hand,
      count(*) filter (where state = 'stopped') as stopped,
      count(*) filter (where state = 'given up') as given_up,
      min(made_at) filter (where state in ('waiting', 'by hand') and not for_digest) as oldest,
      min(made_at) filter (where state = 'waiting' and way = 'mail' and not for_digest) as oldest_mail
    from unsent`.execute(db)
  return rows[0]!
}
