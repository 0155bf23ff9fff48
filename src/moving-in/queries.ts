import { createHash } from 'node:crypto'
import { type Kysely, sql, type Transaction } from 'kysely'
import { json } from '../db/json.ts'
import type { Database } from '../db/schema.ts'
import { NotFound } from '../http/errors.ts'
import { customerKeys, placeKeys } from '../places/recognition.ts'
import type { BedIn } from './bed-cell.ts'
import type { CustomerIn, PlaceIn } from './gathered.ts'

const ROWS_AT_A_TIME = 200

/** A file by its number. @throws {NotFound} when there is none */
export async function requireFile(db: Kysely<Database>, id: number) {
  const row = await fileQuery(db).where('moving_in.id', '=', id).executeTakeFirst()
  if (!row) throw new NotFound()
  return row
}

export type FileRow = Awaited<ReturnType<typeof requireFile>>

/** Files that were taken in, newest first. */
export async function findTakenIn(db: Kysely<Database>): Promise<FileRow[]> {
  return fileQuery(db)
    .where('taken_in_at', 'is not', null)
    .orderBy('moving_in.id', 'desc')
    .limit(20)
    .execute()
}

function fileQuery(db: Kysely<Database>) {
  return db
    .selectFrom('moving_in')
    .innerJoin('account', 'account.id', 'made_by')
    .select([
      'moving_in.id',
      'file_name',
      'file',
      'columns',
      'content_hash',
      'moving_in.made_at',
      'taken_in_at',
    ])
    .select(['customers', 'places', 'beds', 'taken_back_at', 'account.name as by'])
}

export async function lockFile(trx: Transaction<Database>, id: number) {
  const row = await trx
    .selectFrom('moving_in')
    .select(['id', 'file', 'columns', 'taken_in_at', 'taken_back_at', 'customers'])
    .where('id', '=', id)
    .forUpdate()
    .executeTakeFirst()
  if (!row) throw new NotFound()
  return row
}

/** What a file is known again by. */
export function hashOf(text: string): string {
  return createHash('sha256').update(text).digest('hex')
}

/** Takes customers in with their places and beds, in the order of the file. Gives how many of each. */
export async function insertPeople(
  trx: Transaction<Database>,
  movingInId: number,
  people: CustomerIn[],
  country: string,
  at: Temporal.Instant,
): Promise<{ customers: number; places: number; beds: number }> {
  const customerIds = await inParts(people, part =>
    trx
      .insertInto('customer')
      .values(
        part.map(one => ({
          ...{ name: one.name, phone: one.phone, email: one.email, moved_in_id: movingInId },
          ...customerKeys(one, country),
        })),
      )
      .returning('id')
      .execute(),
  )
  const places = people.flatMap((one, nth) => one.places.map(place => ({ place, of: customerIds[nth]! })))
  const placeIds = await inParts(places, part =>
    trx
      .insertInto('place')
      .values(part.map(({ place, of }) => placeRow(place, of, country)))
      .returning('id')
      .execute(),
  )
  const beds = places.flatMap(({ place }, nth) => place.beds.map(bed => ({ bed, of: placeIds[nth]! })))
  await inParts(beds, part =>
    trx
      .insertInto('bed')
      .values(part.map(({ bed, of }) => bedRow(bed, of, at)))
      .returning('id')
      .execute(),
  )
  return { customers: people.length, places: places.length, beds: beds.length }
}

function placeRow({ street, postcode, gate, dog }: PlaceIn, customerId: number, country: string) {
  return { customer_id: customerId, street, postcode, gate, dog, ...placeKeys({ street, postcode }, country) }
}

function bedRow({ told, understood }: BedIn, placeId: number, at: Temporal.Instant) {
  return {
    place_id: placeId,
    source: 'file' as const,
    told: json(told),
    understood: json(understood),
    measured: null,
    measured_understood: null,
    measured_at: null,
    made_at: at.toString(),
  }
}

// Ids go up in the order of the rows of a statement.
async function inParts<Row>(
  rows: Row[],
  insert: (part: Row[]) => Promise<{ id: number }[]>,
): Promise<number[]> {
  const ids: number[] = []
  for (let from = 0; from < rows.length; from += ROWS_AT_A_TIME) {
    const made = await insert(rows.slice(from, from + ROWS_AT_A_TIME))
    ids.push(...made.map(({ id }) => id).sort((a, b) => a - b))
  }
  return ids
}

/** What has been built on the customers of a file since: who, and what; five at most. */
export async function findBuiltOn(db: Kysely<Database>, movingInId: number) {
  const { rows } = await sql<{ name: string; what: 'joined' | 'place joined' | 'beds' }>`
    with mine as (select * from customer where moved_in_id = ${movingInId}),
    here as (select place.*, mine.name from place join mine on mine.id = place.customer_id)
    (select name, 'joined' as what from mine where head_id <> id
      or exists (select 1 from customer as other where other.joined_to = mine.id))
    union (select name, 'place joined' from here where head_id <> id
      or exists (select 1 from place as other where other.joined_to = here.id))
    union (select name, 'firm' from mine join firm on firm.customer_id = mine.id)
    union (select name, 'consent' from mine where quiet_since is not null
      or exists (select 1 from consent where consent.customer_id = mine.id))
    union (select name, 'beds' from here join bed on bed.place_id = here.id
      join request_bed on request_bed.bed_id = bed.id)
    order by 1, 2 limit 5`.execute(db)
  return rows
}

/** Deletes the customers of a file with their places and beds, and what was decided about them. */
export async function deletePeople(trx: Transaction<Database>, movingInId: number): Promise<void> {
  const mine = sql`(select id from customer where moved_in_id = ${movingInId})`
  const here = sql`(select id from place where customer_id in ${mine})`
  await sql`delete from bed where place_id in ${here}`.execute(trx)
  await sql`delete from place_decision where one_id in ${here} or other_id in ${here}`.execute(trx)
  await sql`delete from place where customer_id in ${mine}`.execute(trx)
  await sql`delete from customer_decision where one_id in ${mine} or other_id in ${mine}`.execute(trx)
  await sql`delete from customer where moved_in_id = ${movingInId}`.execute(trx)
}

/** The customers of a file who may be somebody known already by phone, mail or address; fifty at most. */
export async function findAlikeOfFile(db: Kysely<Database>, movingInId: number) {
  const { rows } = await sql<{ id: number; name: string }>`
    with mine as (select * from customer where moved_in_id = ${movingInId} and head_id = id)
    select mine.id, mine.name from mine
    where not exists (select 1 from customer_decision where undone_at is null and (one_id = mine.id or other_id = mine.id))
      and (exists (select 1 from customer as other where other.head_id <> mine.id and other.phone_key = mine.phone_key)
        or exists (select 1 from customer as other where other.head_id <> mine.id and other.email_key = mine.email_key)
        or exists (select 1 from place as here join place as there using (street_key)
          join customer as other on other.id = there.customer_id
          where here.customer_id = mine.id and other.head_id <> mine.id
            and (here.postcode_key = there.postcode_key or here.postcode_key = '' or there.postcode_key = '')))
    order by mine.id limit 50`.execute(db)
  return rows
}
