import type { Kysely, Transaction } from 'kysely'
import { requireBusiness } from '../business/queries.ts'
import type { JobTroubleTable } from '../db/schema/jobs.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import type { GardenPicture } from '../photos/garden-picture.ts'
import { recordHistory } from '../requests/history.ts'
import { hasRoomForPhotos } from '../requests/photos/queries.ts'
import { lockQuoteRequest } from '../requests/stage.ts'

/** So many photos of its work a job has at most. */
export const MOST_JOB_PHOTOS = 40

/** A photo made small, with what it shows and the hash of what came. */
export interface JobPhoto {
  made: GardenPicture
  words: string
  digest: string
}

/** Something damaged, or that somebody comes back for without charging, on `day`; `key` is that of the form. */
export interface Trouble extends Pick<JobTroubleTable, 'key' | 'kind' | 'words' | 'day'> {
  photo: JobPhoto | null
}

/**
 * Notes what was damaged, or what is to be put right for free. The same form again changes nothing.
 * @throws {Conflict} where its photo finds no room
 */
export async function noteTrouble(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  { key, kind, words, day, photo }: Trouble,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const at = deps.now()
    await lockQuoteRequest(trx, quoteRequestId)
    const known = await trx.selectFrom('job_trouble').select('id').where('key', '=', key).executeTakeFirst()
    if (known) return
    if (photo) await requireRoom(trx, quoteRequestId, [photo])
    const photo_id = photo && (await insertPhoto(trx, quoteRequestId, photo, { at, by: accountId }))
    const made = { made_at: at.toString(), made_by: accountId }
    await trx
      .insertInto('job_trouble')
      .values({ key, quote_request_id: quoteRequestId, kind, words, day, photo_id, ...made })
      .execute()
    const doer = { kind: 'staff', accountId } as const
    const verb = kind === 'damage' ? 'damage noted' : 'come back noted'
    await recordHistory(trx, quoteRequestId, doer, verb, at, { words, day: day ?? '' })
  })
}

/** Says that what somebody came back for is done; a repeat changes nothing. */
export async function endTrouble(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  troubleId: number,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const at = deps.now()
    await lockQuoteRequest(trx, quoteRequestId)
    const ended = await trx
      .updateTable('job_trouble')
      .set({ done_at: at.toString(), done_by: accountId })
      .where('id', '=', troubleId)
      .where('quote_request_id', '=', quoteRequestId)
      .where('kind', '=', 'come back')
      .where('done_at', 'is', null)
      .returning('words')
      .executeTakeFirst()
    if (!ended) return
    const doer = { kind: 'staff', accountId } as const
    await recordHistory(trx, quoteRequestId, doer, 'put right', at, { words: ended.words })
  })
}

/** Keeps photos of a job; one that is there already isn't kept twice. */
export async function keepJobPhotos(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  photos: JobPhoto[],
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    await lockQuoteRequest(trx, quoteRequestId)
    await requireRoom(trx, quoteRequestId, photos)
    for (const photo of photos)
      await insertPhoto(trx, quoteRequestId, photo, { at: deps.now(), by: accountId })
  })
}

/** A job has at most so many photos, and all photos no more room than the owner gives them; one that is there is no more. */
async function requireRoom(
  trx: Transaction<Database>,
  quoteRequestId: number,
  photos: readonly JobPhoto[],
): Promise<void> {
  const own = trx.selectFrom('job_photo').where('quote_request_id', '=', quoteRequestId)
  const digests = new Set((await own.select('digest').execute()).map(({ digest }) => digest))
  const added = new Set(photos.map(({ digest }) => digest).filter(digest => !digests.has(digest)))
  if (added.size === 0) return
  if (digests.size + added.size > MOST_JOB_PHOTOS)
    throw new Conflict('closing.photos-most', { most: String(MOST_JOB_PHOTOS) })
  if (!(await hasRoomForPhotos(trx, await requireBusiness(trx)))) throw new Conflict('photos.no-room-left')
}

async function insertPhoto(
  trx: Transaction<Database>,
  quoteRequestId: number,
  { made: { picture, small }, words, digest }: JobPhoto,
  { at, by }: { at: Temporal.Instant; by: number },
): Promise<number> {
  const made = await trx
    .insertInto('job_photo')
    .values({
      ...{ quote_request_id: quoteRequestId, words, digest },
      ...{ picture: picture.jpeg, small: small.jpeg, small_width: small.width, small_height: small.height },
      ...{ made_at: at.toString(), made_by: by },
    })
    .onConflict(conflict => conflict.doNothing())
    .returning('id')
    .executeTakeFirst()
  if (made) return made.id
  const same = await trx
    .selectFrom('job_photo')
    .select('id')
    .where('quote_request_id', '=', quoteRequestId)
    .where('digest', '=', digest)
    .executeTakeFirstOrThrow()
  return same.id
}

/** The photos of a job, without the pictures. */
export async function findJobPhotos(db: Kysely<Database>, quoteRequestId: number) {
  return db
    .selectFrom('job_photo')
    .select(['id', 'words', 'small_width', 'small_height', 'made_at'])
    .where('quote_request_id', '=', quoteRequestId)
    .orderBy('id')
    .execute()
}

export async function findJobPicture(
  db: Kysely<Database>,
  quoteRequestId: number,
  photoId: number,
  size: 'picture' | 'small',
): Promise<Buffer | undefined> {
  const row = await db
    .selectFrom('job_photo')
    .select(size === 'small' ? 'small as jpeg' : 'picture as jpeg')
    .where('quote_request_id', '=', quoteRequestId)
    .where('id', '=', photoId)
    .executeTakeFirst()
  return row?.jpeg
}

/** What was damaged at a job and what somebody comes back for, in the order in which it was noted. */
export async function findTroubles(db: Kysely<Database>, quoteRequestId: number) {
  return db
    .selectFrom('job_trouble')
    .innerJoin('account', 'account.id', 'job_trouble.made_by')
    .select(['job_trouble.id', 'kind', 'words', 'day', 'photo_id', 'job_trouble.made_at', 'done_at'])
    .select('account.name as made_by_name')
    .where('quote_request_id', '=', quoteRequestId)
    .orderBy('job_trouble.id')
    .execute()
}

/** What somebody is to come back for on these days, or was before and hasn't: of the past nothing falls off. */
export async function findComeBacks(db: Kysely<Database>, last: string) {
  return db
    .selectFrom('job_trouble')
    .innerJoin('quote_request', 'quote_request.id', 'job_trouble.quote_request_id')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .innerJoin('place', 'place.id', 'quote_request.place_id')
    .select([
      'job_trouble.day',
      'job_trouble.words',
      'number',
      'customer.name',
      'place.street',
      'place.postcode',
    ])
    .where('kind', '=', 'come back')
    .where('done_at', 'is', null)
    .where('quote_request.erased_at', 'is', null)
    .where('job_trouble.day', '<=', last)
    .orderBy('job_trouble.day')
    .orderBy('job_trouble.id')
    .execute()
}
