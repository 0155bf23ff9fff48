import { type Insertable, type Kysely, sql, type Transaction } from 'kysely'
import type { LoadGotTable, PackOf } from '../db/schema/goods.ts'
import type { Stage } from '../db/schema/stages.ts'
import type { Database } from '../db/schema.ts'
import type { Terms } from '../estimate/job/terms.ts'
import type { StoredBeds } from '../estimate/understood/stored.ts'

/** A job whose work begins on a day, with what was accepted last and the rates it was priced with. */
export interface StartingJob {
  id: number
  number: string
  stage: Stage
  customer: string
  street: string
  postcode: string
  first_day: string
  job: StoredBeds['told']
  understood: StoredBeds['understood']
  terms: Terms
  rate_table_id: number
  is_erased: boolean
}

/** The jobs that begin on a range of days and are booked for good, by day and number: all that is bought for a job is bought for its first day. */
export async function findStartingJobs(
  db: Kysely<Database>,
  fromDay: string,
  lastDay: string,
): Promise<StartingJob[]> {
  const { rows } = await sql<StartingJob>`
    select quote_request.id, quote_request.number, quote_request.stage, customer.name as customer, place.street, place.postcode,
      booking.first_day, quote.job, quote.understood, quote.terms, quote.rate_table_id,
      quote_request.erased_at is not null as is_erased
    from booking
      join quote_request on quote_request.id = booking.quote_request_id
      join customer on customer.id = quote_request.customer_id
      join place on place.id = quote_request.place_id
      join lateral (
        select * from quote join acceptance on acceptance.quote_id = quote.id
        where quote.quote_request_id = quote_request.id order by quote.revision desc limit 1) as quote on true
    where booking.called_off_at is null and booking.held_until is null and booking.say_by is null
      and booking.first_day between ${fromDay} and ${lastDay}
    order by booking.first_day, quote_request.number`.execute(db)
  return rows
}

/** The jobs worked on a day that began before it: they have their material. */
export async function findGoingOn(db: Kysely<Database>, day: string) {
  return db
    .selectFrom('booking_day')
    .innerJoin('booking', 'booking.id', 'booking_day.booking_id')
    .innerJoin('quote_request', 'quote_request.id', 'booking.quote_request_id')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .select(['quote_request.number', 'customer.name as customer', 'booking.first_day'])
    .where('booking.called_off_at', 'is', null)
    .where('booking.say_by', 'is', null)
    .where('booking_day.day', '=', day)
    .where('booking.first_day', '<', day)
    .orderBy('quote_request.number')
    .execute()
}

const GOT = [
  'id',
  'day',
  'of',
  'slug',
  'pack',
  'delivered',
  'on_hand_id',
  'units',
  'contents',
  'paid',
] as const

/** Everything that was got for these jobs or ticked for a day, in turn; nothing that was undone. */
export async function findGot(db: Kysely<Database>, jobIds: number[], day: string | null) {
  const got = await db
    .selectFrom('load_got')
    .innerJoin('account', 'account.id', 'load_got.made_by')
    .select(GOT.map(column => `load_got.${column}` as const))
    .select(['bought_at', 'load_got.made_by', 'account.name as by_name'])
    .select(sql<boolean>`ticket is not null`.as('has_ticket'))
    .where('undone_at', 'is', null)
    .where(eb =>
      eb.or([
        eb('load_got.day', '=', day),
        eb(
          'load_got.id',
          'in',
          eb
            .selectFrom('load_share')
            .select('load_got_id')
            .where('quote_request_id', 'in', [-1, ...jobIds]),
        ),
      ]),
    )
    .orderBy('load_got.id')
    .execute()
  const shares = await db
    .selectFrom('load_share')
    .innerJoin('quote_request', 'quote_request.id', 'load_share.quote_request_id')
    .select(['load_got_id', 'quote_request_id', 'units', 'quote_request.number'])
    .where('load_got_id', 'in', [-1, ...got.map(({ id }) => id)])
    .orderBy('quote_request.number')
    .execute()
  return got.map(one => ({ ...one, shares: shares.filter(share => share.load_got_id === one.id) }))
}

export type Got = Awaited<ReturnType<typeof findGot>>[number]

/** What was got by a key, undone or not. */
export async function findGotByKey(db: Kysely<Database>, key: string) {
  return db.selectFrom('load_got').select(['id', 'undone_at']).where('key', '=', key).executeTakeFirst()
}

export async function insertGot(
  trx: Transaction<Database>,
  got: Insertable<LoadGotTable>,
  shares: { jobId: number; units: string }[],
): Promise<number> {
  const { id } = await trx.insertInto('load_got').values(got).returning('id').executeTakeFirstOrThrow()
  if (shares.length === 0) return id
  await trx
    .insertInto('load_share')
    .values(shares.map(({ jobId, units }) => ({ load_got_id: id, quote_request_id: jobId, units })))
    .execute()
  return id
}

/** Locks what was got; undefined where there is no such row. */
export async function lockGot(trx: Transaction<Database>, id: number) {
  return trx
    .selectFrom('load_got')
    .select(['id', 'key', 'on_hand_id', 'units', 'undone_at', 'made_by', 'of', 'slug', 'pack'])
    .where('id', '=', id)
    .forUpdate()
    .executeTakeFirst()
}

export async function findTicket(db: Kysely<Database>, id: number) {
  return db.selectFrom('load_got').select(['ticket', 'made_by']).where('id', '=', id).executeTakeFirst()
}

/** Locks the day, so that two who tick at once do so one after the other. */
export async function lockDay(trx: Transaction<Database>, day: string): Promise<void> {
  await trx.selectFrom('work_day').select('day').where('day', '=', day).forUpdate().execute()
}

/** What the yard had no more of, of what these jobs take. */
export async function findSoldOutAtYard(db: Kysely<Database>, jobIds: number[]) {
  return db
    .selectFrom('sold_out_at_yard')
    .select(['quote_request_id', 'of', 'slug'])
    .where('quote_request_id', 'in', [-1, ...jobIds])
    .execute()
}

/** What is to be taken along, by what it goes with. */
export async function findThings(db: Kysely<Database>) {
  return db.selectFrom('things_along').select(['of', 'slug', 'things']).execute()
}

export async function upsertThings(
  trx: Transaction<Database>,
  of: PackOf | 'always',
  slug: string,
  things: string,
): Promise<void> {
  await trx
    .insertInto('things_along')
    .values({ of, slug, things })
    .onConflict(conflict => conflict.columns(['of', 'slug']).doUpdateSet({ things }))
    .execute()
}

/** What is on the truck already, and who put it there. */
export async function findOnTruck(db: Kysely<Database>, day: string) {
  return db
    .selectFrom('thing_on_truck')
    .innerJoin('account', 'account.id', 'thing_on_truck.made_by')
    .select(['thing', 'account.name as by_name'])
    .where('day', '=', day)
    .execute()
}
