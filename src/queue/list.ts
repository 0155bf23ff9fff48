import { type Expression, type Kysely, type SqlBool, sql } from 'kysely'
import type { Database } from '../db/schema.ts'
import { type Step, stepInSql } from './next-step.ts'

const SHOWN_OF_EACH = 25
const SHOWN_ON_A_PAGE = 50

/** What the list leaves out: ended requests, unless they are searched for. */
const OPEN_STAGES = ['new', 'visit set', 'measured', 'quoted', 'booked', 'part done', 'done'] as const

/** One row of the list: what came, what it may cost or costs, and since or until when its next step waits. */
function queueRows(db: Kysely<Database>) {
  return db
    .selectFrom('quote_request')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .innerJoin('place', 'place.id', 'quote_request.place_id')
    .leftJoin('ballpark', 'ballpark.quote_request_id', 'quote_request.id')
    .leftJoinLateral(
      eb =>
        eb
          .selectFrom('quote')
          .select(['id', 'total', 'currency', 'holds_until'])
          .whereRef('quote.quote_request_id', '=', 'quote_request.id')
          .orderBy('quote.revision', 'desc')
          .limit(1)
          .as('quote'),
      join => join.onTrue(),
    )
    .leftJoin('acceptance', 'acceptance.quote_id', 'quote.id')
    .leftJoin('visit', join =>
      join
        .onRef('visit.quote_request_id', '=', 'quote_request.id')
        .on('visit.done_at', 'is', null)
        .on('visit.called_off_at', 'is', null),
    )
    .leftJoin('booking', join =>
      join.onRef('booking.quote_request_id', '=', 'quote_request.id').on('booking.called_off_at', 'is', null),
    )
    .select([
      'quote_request.id',
      'quote_request.number',
      'quote_request.stage',
      'quote_request.stage_at',
      'quote_request.arrived_at',
      'customer.name',
      'place.street',
      'place.postcode',
      'ballpark.low',
      'ballpark.high',
      'quote.total',
      'quote.currency',
      'quote.holds_until',
      'acceptance.accepted_at',
      'visit.starts_at',
      'booking.first_day',
    ])
    .select(stepInSql().as('step'))
}

// A visit or a work day is due at its time; everything else has waited since it came to its stage.
const WAITS_FROM = sql`case step
  when 'Measure' then starts_at
  when 'Load' then first_day::timestamptz
  else coalesce(accepted_at, stage_at)
end`

/**
 * The list under its next steps, those that have waited longest first: of each step the first 25 with the count of
 * all, or of one step 50 from a place on.
 */
export async function findQueue(db: Kysely<Database>, only: { step: Step; from: number } | null) {
  const [from, shown] = only ? [only.from, SHOWN_ON_A_PAGE] : [0, SHOWN_OF_EACH]
  return db
    .with('open', cte => queueRows(cte as Kysely<Database>).where('quote_request.stage', 'in', OPEN_STAGES))
    .with('placed', cte =>
      cte
        .selectFrom('open')
        .selectAll()
        .select(sql<number>`count(*) over (partition by step)`.as('of_step'))
        .select(
          sql<number>`row_number() over (partition by step order by ${WAITS_FROM}, id)`.as('place_in_step'),
        )
        .$if(only !== null, query => query.where('step', '=', only!.step)),
    )
    .selectFrom('placed')
    .selectAll()
    .where('place_in_step', '>', from)
    .where('place_in_step', '<=', from + shown)
    .orderBy('place_in_step')
    .execute()
}

export type QueueRow = Awaited<ReturnType<typeof findQueue>>[number]

/**
 * Requests found by name, phone, place or number, ended ones too, newest first; of phone numbers only the digits
 * count, of words neither case nor accents do. `before` is the id of the last row of the page before.
 */
export async function searchQueue(db: Kysely<Database>, typed: string, before: number | null) {
  const found = db
    .selectFrom('quote_request')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .innerJoin('place', 'place.id', 'quote_request.place_id')
    .select('quote_request.id')
    .where(matches(typed))
    .$if(before !== null, query => query.where('quote_request.id', '<', before!))
    .orderBy('quote_request.id', 'desc')
    .limit(SHOWN_ON_A_PAGE + 1)
  const rows = await queueRows(db)
    .where('quote_request.id', 'in', found)
    .orderBy('quote_request.id', 'desc')
    .execute()
  return { rows: rows.slice(0, SHOWN_ON_A_PAGE), more: rows.length > SHOWN_ON_A_PAGE }
}

export type FoundRow = Awaited<ReturnType<typeof searchQueue>>['rows'][number]

function matches(typed: string): Expression<SqlBool> {
  const words = plain(typed).split(/\s+/).filter(Boolean)
  const text = sql`customer.name || ' ' || customer.email || ' ' || place.street || ' ' || place.postcode
    || ' ' || quote_request.number`
  const everyWord = sql.join(
    words.map(word => sql`strpos(${plainInSql(text)}, ${word}) > 0`),
    sql` and `,
  )
  const digits = phoneDigits(typed)
  return digits ? sql<SqlBool>`((${everyWord}) or ${phoneMatches(digits)})` : sql<SqlBool>`(${everyWord})`
}

/** The digits of what looks like a phone number, else null. */
function phoneDigits(typed: string): string | null {
  const digits = /^[\d\s()+./-]+$/.test(typed) ? typed.replace(/\D/g, '') : ''
  return digits.length >= 4 ? digits : null
}

// Either may have been written with a country's code, or zeros before it, that the other lacks.
function phoneMatches(digits: string) {
  const stored = sql`regexp_replace(customer.phone, '\\D', '', 'g')`
  const bare = sql`ltrim(${stored}, '0')`
  const typed = digits.replace(/^0+/, '')
  return sql`(strpos(${stored}, ${digits}) > 0 or (${typed.length} >= 7 and strpos(${stored}, ${typed}) > 0)
    or (length(${bare}) >= 7 and strpos(${typed}, ${bare}) > 0))`
}

function plain(text: string): string {
  return text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase()
}

function plainInSql(text: ReturnType<typeof sql>) {
  return sql`lower(regexp_replace(normalize(${text}, NFKD), '[\\u0300-\\u036f]', '', 'g'))`
}
