import { type Kysely, sql, type Transaction } from 'kysely'
import type { Database } from '../../db/schema.ts'
import { hashSecret, newSecret } from '../../lib/tokens.ts'
import type { GardenPicture } from '../../photos/garden-picture.ts'

/** How long a photo is held whose request isn't sent. */
export const HELD_HOURS = 12

/** A photo of a request as pages show it. */
export interface PhotoRow {
  id: number
  words: string
  small_width: number
  small_height: number
}

/** Holds a photo until its request is sent. Gives the token that it is known by. */
export async function holdPhoto(
  db: Kysely<Database>,
  { picture, small }: GardenPicture,
  at: Temporal.Instant,
): Promise<string> {
  const token = newSecret()
  await db
    .insertInto('request_photo')
    .values({
      quote_request_id: null,
      place: null,
      token_hash: hashSecret(token),
      picture: picture.jpeg,
      width: picture.width,
      height: picture.height,
      small: small.jpeg,
      small_width: small.width,
      small_height: small.height,
      bytes: picture.jpeg.length + small.jpeg.length,
      made_at: at.toString(),
    })
    .execute()
  return token
}

/** Which of these tokens stand for a photo that is held. */
export async function findHeld(
  db: Kysely<Database>,
  tokens: string[],
  at: Temporal.Instant,
): Promise<Set<string>> {
  if (tokens.length === 0) return new Set()
  const byHash = new Map(tokens.map(token => [hashSecret(token), token]))
  const rows = await held(db, at)
    .select('token_hash')
    .where('token_hash', 'in', [...byHash.keys()])
    .execute()
  return new Set(rows.map(({ token_hash }) => byHash.get(token_hash!)!))
}

/** The small picture of a photo that is held. */
export async function findHeldSmall(
  db: Kysely<Database>,
  token: string,
  at: Temporal.Instant,
): Promise<Buffer | undefined> {
  const row = await held(db, at)
    .select('small')
    .where('token_hash', '=', hashSecret(token))
    .executeTakeFirst()
  return row?.small
}

function held(db: Kysely<Database>, at: Temporal.Instant) {
  return db
    .selectFrom('request_photo')
    .where('quote_request_id', 'is', null)
    .where('maybe_junk_id', 'is', null)
    .where('made_at', '>', at.subtract({ hours: HELD_HOURS }).toString())
}

/** Makes a photo that is held one of a request's, in a free place; whether it was held still. */
export async function claimHeld(
  trx: Transaction<Database>,
  { token, words, id, place }: { token: string; words: string; id: number; place: number },
  at: Temporal.Instant,
): Promise<boolean> {
  const changed = await trx
    .updateTable('request_photo')
    .set({ quote_request_id: id, place, words, token_hash: null })
    .where('token_hash', '=', hashSecret(token))
    .where('quote_request_id', 'is', null)
    .where('maybe_junk_id', 'is', null)
    .where('made_at', '>', at.subtract({ hours: HELD_HOURS }).toString())
    .executeTakeFirst()
  return changed.numUpdatedRows > 0n
}

/** The places of a request that have a photo. */
export async function findPlaces(db: Kysely<Database>, quoteRequestId: number): Promise<number[]> {
  const rows = await db
    .selectFrom('request_photo')
    .select('place')
    .where('quote_request_id', '=', quoteRequestId)
    .execute()
  return rows.map(({ place }) => place!)
}

/** By what a photo is known to be of a request, or of one that may be junk. */
export type PhotoOf = 'quote_request_id' | 'maybe_junk_id'

/** The photos of a request, or of one that may be junk, without the pictures. */
export async function findPhotos(
  db: Kysely<Database>,
  id: number,
  of: PhotoOf = 'quote_request_id',
): Promise<PhotoRow[]> {
  return db
    .selectFrom('request_photo')
    .select(['id', 'words', 'small_width', 'small_height'])
    .where(of, '=', id)
    .orderBy('place')
    .orderBy('id')
    .execute()
}

/** A picture of such a photo, in one of its sizes; undefined where there is none. */
export async function findPicture(
  db: Kysely<Database>,
  id: number,
  photoId: number,
  size: 'picture' | 'small',
  of: PhotoOf = 'quote_request_id',
): Promise<Buffer | undefined> {
  const row = await db
    .selectFrom('request_photo')
    .select(size === 'small' ? 'small as jpeg' : 'picture as jpeg')
    .where(of, '=', id)
    .where('id', '=', photoId)
    .executeTakeFirst()
  return row?.jpeg
}

/** Whether there was one to take out. */
export async function deletePhoto(
  trx: Transaction<Database>,
  quoteRequestId: number,
  photoId: number,
): Promise<boolean> {
  const deleted = await trx
    .deleteFrom('request_photo')
    .where('quote_request_id', '=', quoteRequestId)
    .where('id', '=', photoId)
    .executeTakeFirst()
  return deleted.numDeletedRows > 0n
}

/** How many bytes all photos take up, those of work and of tickets too, and those alone that are held for a form. */
export async function bytesTaken(db: Kysely<Database>): Promise<{ all: number; held: number }> {
  const { rows } = await sql<{ all: number; held: number }>`
    select coalesce(sum(bytes), 0)::bigint
      + (select coalesce(sum(octet_length(picture) + octet_length(small)), 0)::bigint from job_photo)
      + (select coalesce(sum(octet_length(ticket)), 0)::bigint from load_got) as all,
      coalesce(sum(bytes) filter (where quote_request_id is null and maybe_junk_id is null), 0)::bigint as held
    from request_photo`.execute(db)
  return rows[0]!
}

/** Whether the room that the owner gives all photos has some left for what the staff take. */
export async function hasRoomForPhotos(
  db: Kysely<Database>,
  { photos_megabytes }: { photos_megabytes: number },
): Promise<boolean> {
  return (await bytesTaken(db)).all < photos_megabytes * 1e6
}

/** Takes out what was held for too long. Gives how many. */
export async function deleteHeldBefore(db: Kysely<Database>, at: Temporal.Instant): Promise<number> {
  const deleted = await db
    .deleteFrom('request_photo')
    .where('quote_request_id', 'is', null)
    .where('maybe_junk_id', 'is', null)
    .where('made_at', '<=', at.subtract({ hours: HELD_HOURS }).toString())
    .executeTakeFirst()
  return Number(deleted.numDeletedRows)
}

/** Takes out the photos of requests that ended before a moment, those of whoever worked there too. Gives how many. */
export async function deleteOfEnded(db: Kysely<Database>, before: Temporal.Instant): Promise<number> {
  const ended = ['paid', 'called off', 'not taken', "can't do", 'lapsed'] as const
  let all = 0
  for (const table of ['request_photo', 'job_photo'] as const) {
    const deleted = await db
      .deleteFrom(table)
      .where('quote_request_id', 'in', eb =>
        eb
          .selectFrom('quote_request')
          .select('id')
          .where('stage', 'in', ended)
          .where('stage_at', '<', before.toString()),
      )
      .executeTakeFirst()
    all += Number(deleted.numDeletedRows)
  }
  return all
}
