import type { Kysely } from 'kysely'
import type { Stage } from '../db/schema/stages.ts'
import type { Database } from '../db/schema.ts'

/** Of a job on the page Days: the version that closing it would become, and whether one tap may. */
export interface ToClose {
  version: number
  mayClose: boolean
  state: 'ahead' | 'part done' | 'done'
}

/** How booked jobs stand, by the numbers of their requests; `today` is the day where the business is. */
export async function findToClose(
  db: Kysely<Database>,
  numbers: readonly string[],
  today: string,
): Promise<Map<string, ToClose>> {
  if (numbers.length === 0) return new Map()
  const rows = await db
    .selectFrom('quote_request')
    .innerJoin('booking', 'booking.quote_request_id', 'quote_request.id')
    .innerJoin('booking_day', 'booking_day.booking_id', 'booking.id')
    .select(['number', 'stage'])
    .select(eb => [
      eb.fn.max('booking_day.day').as('last_day'),
      eb
        .selectFrom('job_closing')
        .select(closing => closing.fn.max('version').as('last'))
        .whereRef('job_closing.quote_request_id', '=', 'quote_request.id')
        .as('last'),
    ])
    .where('booking.called_off_at', 'is', null)
    .where('number', 'in', numbers)
    .groupBy(['quote_request.id', 'number', 'stage'])
    .execute()
  return new Map(
    rows.map(({ number, stage, last_day, last }) => [
      number,
      {
        version: (last ?? 0) + 1,
        mayClose: (stage === 'booked' || stage === 'part done') && last_day <= today,
        state: stateOf(stage),
      },
    ]),
  )
}

function stateOf(stage: Stage): ToClose['state'] {
  if (stage === 'booked' || stage === 'day asked' || stage === 'week chosen') return 'ahead'
  return stage === 'part done' ? 'part done' : 'done'
}
