import { sql, type Transaction } from 'kysely'
import type { Database } from '../../db/schema.ts'
import { hashSecret } from '../../lib/tokens.ts'
import type { CarriedPhoto } from '../photos/keep.ts'
import { HELD_HOURS } from '../photos/queries.ts'

/** So much of the room of all photos those of maybe junk may take up: of more the oldest go. */
const SHARE = 0.1

/** Makes photos that a form holds those of a request that may be junk, the first `most`. */
export async function keepMaybeJunkPhotos(
  trx: Transaction<Database>,
  id: number,
  photos: CarriedPhoto[],
  { photos_each, photos_megabytes }: { photos_each: number; photos_megabytes: number },
  at: Temporal.Instant,
): Promise<void> {
  for (const { token, words } of photos.slice(0, photos_each))
    await trx
      .updateTable('request_photo')
      .set({ maybe_junk_id: id, words })
      .where('token_hash', '=', hashSecret(token))
      .where('quote_request_id', 'is', null)
      .where('maybe_junk_id', 'is', null)
      .where('made_at', '>', at.subtract({ hours: HELD_HOURS }).toString())
      .execute()
  if (photos.length === 0) return
  const most = Math.floor(photos_megabytes * 1e6 * SHARE)
  await sql`
    delete from request_photo where id in (
      select id from (
        select id, sum(bytes) over (order by maybe_junk_id desc, id) as taken from request_photo where maybe_junk_id is not null
      ) as counted where taken > ${most})`.execute(trx)
}

/** Hands them to the request that it became. */
export async function handPhotosOver(trx: Transaction<Database>, from: number, to: number): Promise<void> {
  await sql`
    update request_photo set quote_request_id = ${to}, place = placed.place, maybe_junk_id = null, token_hash = null
    from (select id, row_number() over (order by id) as place from request_photo where maybe_junk_id = ${from}) as placed
    where request_photo.id = placed.id`.execute(trx)
}
