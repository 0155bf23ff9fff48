import { createHash } from 'node:crypto'
import type { Kysely } from 'kysely'
import type { Database } from '../../db/schema.ts'
import type { Deps } from '../../deps.ts'
import { isPhotoName } from '../../estimate/table/photo-name.ts'
import type { Picture } from '../../photos/read-picture.ts'

/** Keeps a picture under the SHA-256 of its bytes, and gives that name; the same picture again changes nothing. */
export async function keepPhoto(
  deps: Deps,
  accountId: number,
  { jpeg, width, height }: Picture,
): Promise<string> {
  const name = createHash('sha256').update(jpeg).digest('hex')
  await deps.db
    .insertInto('finish_photo')
    .values({ name, picture: jpeg, width, height, made_at: deps.now().toString(), made_by: accountId })
    .onConflict(conflict => conflict.column('name').doNothing())
    .execute()
  return name
}

/** The bytes of a photo; undefined where none of that name is kept. */
export async function findPhoto(db: Kysely<Database>, name: string): Promise<Buffer | undefined> {
  if (!isPhotoName(name)) return undefined
  const row = await db
    .selectFrom('finish_photo')
    .select('picture')
    .where('name', '=', name)
    .executeTakeFirst()
  return row?.picture
}

/** The names of all photos that are kept. */
export async function findPhotoNames(db: Kysely<Database>): Promise<Set<string>> {
  const rows = await db.selectFrom('finish_photo').select('name').execute()
  return new Set(rows.map(({ name }) => name))
}
