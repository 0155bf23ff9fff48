import { type Kysely, sql } from 'kysely'
import type { BedTable } from '../db/schema/places.ts'
import type { Database } from '../db/schema.ts'
import type { BedTold, StopTold } from '../estimate/job/bed.ts'
import type { JobUnderstood } from '../estimate/understood/format.ts'
import type { Kind } from '../places/queries.ts'

/** So many requests of one customer or place are shown, the newest. */
export const MOST_SHOWN = 60

/** The pairs of places, of two customers' groups, whose addresses are alike: by the heads of each. */
export async function findSamePlaces(db: Kysely<Database>, one: number, other: number) {
  const { rows } = await sql<{ mine: number; theirs: number }>`
    select distinct mine.head_id as mine, theirs.head_id as theirs
    from customer as a join customer as one on one.head_id = a.head_id join place as mine on mine.customer_id = one.id,
      customer as b join customer as other on other.head_id = b.head_id join place as theirs on theirs.customer_id = other.id
    where a.id = ${one} and b.id = ${other} and mine.street_key = theirs.street_key
      and (mine.postcode_key = theirs.postcode_key or mine.postcode_key = '' or theirs.postcode_key = '')
    order by 1, 2`.execute(db)
  return rows
}

/** The rows of a customer's group as they were told, newest first, the head last. */
export async function findCustomers(db: Kysely<Database>, headId: number) {
  return db
    .selectFrom('customer')
    .select(['id', 'name', 'phone', 'email', 'phone_key', 'email_key', 'quiet_since', 'erased_at'])
    .where('head_id', '=', headId)
    .orderBy('id', 'desc')
    .limit(MOST_SHOWN)
    .execute()
}

/** The places of a customer's group or the rows of a place's, as they were told, newest first. */
export async function findPlaces(db: Kysely<Database>, kind: Kind, headId: number) {
  return db
    .selectFrom('place')
    .innerJoin('customer', 'customer.id', 'place.customer_id')
    .select(['place.id', 'place.head_id', 'place.street', 'place.postcode', 'place.gate', 'place.dog'])
    .select(['customer.name as customer_name', 'customer.head_id as customer_head_id'])
    .where(`${kind}.head_id`, '=', headId)
    .orderBy('place.id', 'desc')
    .limit(MOST_SHOWN)
    .execute()
}

/** The requests of a customer or a place, newest first, with what they cost and when the work was. */
export async function findRequests(db: Kysely<Database>, kind: Kind, headId: number) {
  return db
    .selectFrom('quote_request')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .innerJoin('place', 'place.id', 'quote_request.place_id')
    .leftJoin('ballpark', 'ballpark.quote_request_id', 'quote_request.id')
    .leftJoinLateral(
      eb =>
        eb
          .selectFrom('quote')
          .select(['quote.id', 'quote.total', 'quote.currency'])
          .whereRef('quote.quote_request_id', '=', 'quote_request.id')
          .orderBy('quote.revision', 'desc')
          .limit(1)
          .as('quote'),
      join => join.onTrue(),
    )
    .leftJoin('booking', join =>
      join
        .onRef('booking.quote_request_id', '=', 'quote_request.id')
        .on('booking.called_off_at', 'is', null)
        .on('booking.say_by', 'is', null),
    )
    .select(['quote_request.id', 'quote_request.number', 'quote_request.stage', 'quote_request.arrived_at'])
    .select(sql<boolean>`quote_request.erased_at is not null`.as('is_erased'))
    .select(['quote_request.note', 'customer.name', 'place.street', 'place.head_id as place_head_id'])
    .select(['ballpark.low', 'ballpark.high', 'quote.total', 'quote.currency', 'booking.first_day'])
    .where(`${kind}.head_id`, '=', headId)
    .orderBy('quote_request.id', 'desc')
    .limit(MOST_SHOWN)
    .execute()
}

export type KnownRequest = Awaited<ReturnType<typeof findRequests>>[number]

/** What the staff noted on these requests, newest first. */
export async function findNotes(db: Kysely<Database>, requestIds: number[]) {
  if (requestIds.length === 0) return []
  return db
    .selectFrom('history')
    .innerJoin('quote_request', 'quote_request.id', 'history.quote_request_id')
    .leftJoin('account', 'account.id', 'history.account_id')
    .select(['history.at', 'history.detail', 'quote_request.number', 'account.name as by'])
    .where('history.quote_request_id', 'in', requestIds)
    .where('history.verb', '=', 'noted')
    .orderBy('history.id', 'desc')
    .limit(MOST_SHOWN)
    .execute()
}

/** What was laid by the newest quotes of these requests: the lines of their materials. */
export async function findLaid(db: Kysely<Database>, requestIds: number[]) {
  if (requestIds.length === 0) return []
  return db
    .selectFrom('quote_line')
    .innerJoin('quote', 'quote.id', 'quote_line.quote_id')
    .select(['quote.quote_request_id', 'quote.rate_table_id', 'quote.currency'])
    .select(['quote_line.kind', 'quote_line.slug', 'quote_line.description', 'quote_line.quantity'])
    .select([
      'quote_line.unit',
      'quote_line.rate',
      'quote_line.amount',
      'quote_line.worked_out',
      'quote_line.reason',
    ])
    .where('quote.quote_request_id', 'in', requestIds)
    .where('quote_line.kind', '=', 'finish')
    .where(eb =>
      eb.not(
        eb.exists(
          eb
            .selectFrom('quote as newer')
            .select('newer.id')
            .whereRef('newer.quote_request_id', '=', 'quote.quote_request_id')
            .whereRef('newer.revision', '>', 'quote.revision'),
        ),
      ),
    )
    .orderBy('quote_line.position')
    .execute()
}

/** The beds of a place's group that are there still, by when they were told, the newest request's first. */
export async function findBeds(db: Kysely<Database>, placeHeadId: number) {
  const { rows } = await sql<BedRow>`
    select bed.id, bed.source, bed.told, bed.understood, bed.measured, bed.measured_understood, bed.measured_at,
      bed.made_at, newest.id as request_id, newest.number,
      (select jsonb_build_object('id', stop.id, 'name', stop.name, 'note', stop.note, 'spot', stop.spot)
        from stop where stop.id = bed.stop_id) as stop
    from bed join place on place.id = bed.place_id
      left join lateral (
        select quote_request.id, number, coalesce(measured_position, told_position) as position
        from request_bed join quote_request on quote_request.id = request_bed.quote_request_id
        where request_bed.bed_id = bed.id order by quote_request.id desc limit 1) as newest on true
    where place.head_id = ${placeHeadId} and bed.gone_at is null
    order by newest.id desc nulls last, newest.position, bed.id limit 300`.execute(db)
  return rows
}

export interface BedRow {
  id: number
  source: BedTable['source']
  told: BedTold
  understood: JobUnderstood | null
  measured: BedTold | null
  measured_understood: JobUnderstood | null
  measured_at: string | null
  made_at: string
  request_id: number | null
  number: string | null
  stop: StopTold | null
}

/** Heads of groups, newest first, from below the id `before` on where that isn't 0; those that match `typed` by any row of theirs. */
export async function findListed(db: Kysely<Database>, typed: string, before: number, most: number) {
  const words = typed.split(/\s+/).filter(Boolean)
  const digits = /^[\d\s()+./-]+$/.test(typed) ? typed.replace(/\D/g, '') : ''
  const matches = words.map(word => {
    const pattern = `%${word.replace(/[\\%_]/g, '\\$&')}%`
    return sql`exists (select 1 from customer as any_row left join place on place.customer_id = any_row.id
      where any_row.head_id = customer.id
        and plain_text(concat_ws(' ', any_row.name, any_row.email, place.street, place.postcode)) like plain_text(${pattern}))`
  })
  const byPhone = sql`exists (select 1 from customer as any_row where any_row.head_id = customer.id
    and regexp_replace(any_row.phone, '\\D', '', 'g') like ${`%${digits}%`})`
  const isWanted = words.length === 0 ? sql`true` : sql`(${sql.join(matches, sql` and `)})`
  const { rows } = await sql<{ id: number; name: string; phone: string; street: string | null }>`
    select customer.id, customer.name, customer.phone,
      (select street from place where customer_id = customer.id order by id limit 1) as street
    from customer where head_id = customer.id and erased_at is null and (${before} = 0 or customer.id < ${before})
      and (${isWanted}${digits.length >= 4 ? sql` or ${byPhone}` : sql``})
      and (moved_in_id is not null or exists (select 1 from quote_request
        join customer as any_row on any_row.id = quote_request.customer_id
        where any_row.head_id = customer.id and junk_at is null))
    order by customer.id desc limit ${most}`.execute(db)
  return rows
}
