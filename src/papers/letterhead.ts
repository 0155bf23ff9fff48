import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { t } from '../language/catalogue.ts'
import { asJpeg, lookAtPicture, remakePicture } from '../photos/read-picture.ts'
import { forgetReplaced, insertFile, type KeptFile } from './queries.ts'
import type { FileReading } from './read-file.ts'

const LARGEST_LOGO = 5_000_000
/** Sharp in print at the size that papers give it. */
const WIDEST = 600
const TALLEST = 280
const QUALITY = 88

/** What stands at the head of papers; a logo replaces the one before, null takes it out, undefined leaves it. */
export interface Letterhead {
  postalAddress: string
  licenseLine: string
  logo: KeptFile | null | undefined
}

/** Reads an uploaded logo, made anew on white and small. */
export async function readLogo(file: File): Promise<FileReading> {
  if (file.size > LARGEST_LOGO) return { ok: false, fault: 'That’s more than 5 MB.' }
  const bytes = Buffer.from(await file.arrayBuffer())
  const looked = await lookAtPicture(bytes, file.type, LARGEST_LOGO)
  const read = looked.ok
    ? await remakePicture(bytes, upright =>
        asJpeg(upright.resize(WIDEST, TALLEST, { fit: 'inside', withoutEnlargement: true }), QUALITY),
      )
    : looked
  if (read.ok) return { ok: true, kind: 'image/jpeg', bytes: read.made.jpeg }
  const { key, params } = read.fault
  const fault = key === 'photos.unreadable' ? 'Choose a JPEG, a PNG, or a WebP.' : t('en', key, params)
  return { ok: false, fault }
}

/** The logo of the business; undefined while it has none. */
export async function findLogo(db: Kysely<Database>): Promise<KeptFile | undefined> {
  return db
    .selectFrom('business')
    .innerJoin('kept_file', 'kept_file.id', 'business.logo_file_id')
    .select(['kept_file.kind', 'kept_file.bytes'])
    .executeTakeFirst()
}

/** Writes what papers have at their head from now on, and lets go of a logo that was replaced. */
export async function changeLetterhead(deps: Deps, by: number, letterhead: Letterhead): Promise<void> {
  const { postalAddress, licenseLine, logo } = letterhead
  await deps.db.transaction().execute(async trx => {
    const logoId = logo && (await insertFile(trx, logo, { at: deps.now(), by }))
    await trx
      .updateTable('business')
      .set({
        postal_address: postalAddress,
        license_line: licenseLine,
        ...(logoId !== undefined && { logo_file_id: logoId }),
      })
      .execute()
    await forgetReplaced(trx)
  })
}
