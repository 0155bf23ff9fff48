import { type Kysely, sql } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { BedTold } from '../estimate/job/bed.ts'
import { bedsOf } from '../estimate/understood/stored.ts'
import { findBedIds } from '../places/beds.ts'
import type { Telling } from './tell-beds.ts'

/** The beds of a customer's newest request that has any, as they were measured, else as told. */
export interface LastBeds extends Required<Telling> {
  placeId: number
}

/**
 * What "the same as last time" means for a customer, by any row of the group: undefined where no request of theirs has
 * beds. Of requests for an address like that of the place `placeId` where there are such, as a customer may have several.
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
  if (!row) return undefined
  const { told, understood } = bedsOf(row)
  return {
    told: { ...told, beds: told.beds.map(asTold), postcode: told.postcode || row.postcode },
    understood,
    known: await findBedIds(db, row.id, row.measured ? 'measured_position' : 'told_position'),
    before: row.number,
    placeId: row.place_id,
  }
}

// Which bed it was of those told then means nothing for the next request.
function asTold({ toldBed: _, ...bed }: BedTold): BedTold {
  return bed
}
