import { type Kysely, sql } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { BedTold } from '../estimate/job/bed.ts'
import { MOST_BEDS_OF_STAFF } from '../estimate/reading/read-beds.ts'
import { FORMAT, type JobUnderstood, upToDate } from '../estimate/understood/format.ts'
import { bedsOf } from '../estimate/understood/stored.ts'
import { findBedIds } from '../places/beds.ts'
import type { Telling } from './tell-beds.ts'

/** The beds of a customer's newest request that has any, as they were measured, else as told; else those of a file. */
export interface LastBeds extends Required<Telling> {
  placeId: number
}

/**
 * What "the same as last time" means for a customer, by any row of the group: undefined where no beds of theirs are
 * known. Of requests for an address like that of the place `placeId` where there are such, as a customer may have several.
 */
export async function findLastBeds(
  db: Kysely<Database>,
  customerId: number,
  placeId: number,
): Promise<LastBeds | undefined> {
  const row = await db
    .selectFrom('quote_request')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .innerJoin('place', 'place.id', 'quote_request.place_id')
    .select([
      'quote_request.id',
      'quote_request.number',
      'told',
      'understood',
      'measured',
      'measured_understood',
    ])
    .select(['quote_request.place_id', 'place.postcode'])
    .where('customer.head_id', '=', eb =>
      eb.selectFrom('customer as one').select('one.head_id').where('one.id', '=', customerId),
    )
    // One that was sent without beds has them once it was measured.
    .where(sql<boolean>`jsonb_array_length(coalesce(measured, told) -> 'beds') > 0`)
    .orderBy(
      sql`place.street_key is not distinct from (select street_key from place as here where here.id = ${placeId})`,
      'desc',
    )
    .orderBy('quote_request.id', 'desc')
    .limit(1)
    .executeTakeFirst()
  if (!row) return findBedsOfFile(db, customerId, placeId)
  const { told, understood } = bedsOf(row)
  return {
    told: { ...told, beds: told.beds.map(asTold), postcode: told.postcode || row.postcode },
    understood,
    known: await findBedIds(db, row.id, row.measured ? 'measured_position' : 'told_position'),
    before: row.number,
    placeId: row.place_id,
  }
}

/** Beds that a file brought, of one place: that at the address of the place `placeId`, else the customer's last one. */
async function findBedsOfFile(
  db: Kysely<Database>,
  customerId: number,
  placeId: number,
): Promise<LastBeds | undefined> {
  const { rows } = await sql<BedOfFile>`
    with sites as (
      select place.id, place.postcode, place.street_key from place join customer on customer.id = place.customer_id
      where customer.head_id = (select one.head_id from customer as one where one.id = ${customerId})
        and exists (select 1 from bed where place_id = place.id and source = 'file' and gone_at is null)
      order by street_key is not distinct from (select here.street_key from place as here where here.id = ${placeId}) desc,
        place.id desc limit 1)
    select bed.id, told, understood, sites.id as place_id, postcode from sites join bed on bed.place_id = sites.id
    where gone_at is null order by bed.id limit ${MOST_BEDS_OF_STAFF}`.execute(db)
  const [first] = rows
  if (!first) return undefined
  return {
    told: { beds: rows.map(({ told }) => asTold(told)), extras: [], postcode: first.postcode },
    understood: {
      format: FORMAT,
      beds: rows.flatMap(({ understood }) => upToDate(understood).beds),
      extras: [],
      postcode: first.postcode,
    },
    known: rows.map(({ id }) => id),
    before: 'last year',
    placeId: first.place_id,
  }
}

interface BedOfFile {
  id: number
  told: BedTold
  understood: JobUnderstood
  place_id: number
  postcode: string
}

// Which bed it was of those told then means nothing for the next request.
function asTold({ toldBed: _, ...bed }: BedTold): BedTold {
  return bed
}
