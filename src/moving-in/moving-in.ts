import { isDeepStrictEqual } from 'node:util'
import { sql } from 'kysely'
import { requireBusiness } from '../business/queries.ts'
import { json } from '../db/json.ts'
import { isForeignKeyViolation, isUniqueViolation } from '../db/violations.ts'
import type { Deps } from '../deps.ts'
import { NotFound, Refusal } from '../http/errors.ts'
import { requireStanding } from '../rates/standing.ts'
import { guessColumns, type Matched } from './columns.ts'
import type { CustomerIn } from './gathered.ts'
import { readPeople } from './people-in.ts'
import {
  deletePeople,
  type FileRow,
  findBuiltOn,
  hashOf,
  insertPeople,
  lockFile,
  requireFile,
} from './queries.ts'
import { type Records, type RowFault, readRecords } from './records.ts'

/** What a file tells of, as it would be taken in. */
export interface Preview extends Records {
  matched: Matched
  customers: CustomerIn[]
  faults: RowFault[]
}

/**
 * Keeps a file until it is taken in, its columns matched by their names, and forgets those that nobody took in for a day.
 * Gives its number; or what makes it no table.
 */
export async function keepFile(
  deps: Deps,
  accountId: number,
  { name, text }: { name: string; text: string },
): Promise<{ ok: true; id: number } | { ok: false; fault: RowFault }> {
  const records = readRecords(text)
  if (!records.ok) return records
  const now = deps.now()
  const id = await deps.db.transaction().execute(async trx => {
    await trx
      .deleteFrom('moving_in')
      .where('taken_in_at', 'is', null)
      .where('made_at', '<', now.subtract({ hours: 24 }).toString())
      .execute()
    const row = {
      file_name: name,
      content_hash: hashOf(text),
      file: text,
      columns: json(guessColumns(records.header) as Record<string, number>),
      made_at: now.toString(),
      made_by: accountId,
    }
    return (await trx.insertInto('moving_in').values(row).returning('id').executeTakeFirstOrThrow()).id
  })
  return { ok: true, id }
}

/** Says which column of a file is which of ours; one that was taken in stays as it is. */
export async function matchColumns(deps: Deps, id: number, matched: Matched): Promise<void> {
  await deps.db
    .updateTable('moving_in')
    .set({ columns: json(matched as Record<string, number>) })
    .where('id', '=', id)
    .where('taken_in_at', 'is', null)
    .execute()
}

/** A file that waits, read by its columns. @throws {NotFound} when it was taken in, or there is none */
export async function previewFile(deps: Deps, id: number): Promise<Preview> {
  return previewOf(deps, await requireFile(deps.db, id))
}

async function previewOf(deps: Deps, { file, columns }: FileRow): Promise<Preview> {
  const records = file === null ? null : readRecords(file)
  if (!records?.ok) throw new NotFound()
  const { rates } = await requireStanding(deps)
  const { country } = await requireBusiness(deps.db)
  const { header, rows } = records
  const { customers, faults } = await readPeople(records, columns, country, rates.body)
  return { header, rows, matched: columns, customers, faults }
}

export type TakenIn = 'in' | 'in before' | 'same file' | 'faulty' | 'changed'

/**
 * Takes everybody of a file in, in one transaction, and only where nothing at all is wrong. Taken in before, it changes
 * nothing; a file with the same content stands once.
 */
export async function takeIn(deps: Deps, accountId: number, id: number): Promise<TakenIn> {
  // Read once: what takes the file in meanwhile empties it.
  const waiting = await requireFile(deps.db, id)
  if (waiting.taken_in_at !== null) return 'in before'
  const { customers, faults, matched } = await previewOf(deps, waiting)
  if (faults.length > 0 || customers.length === 0) return 'faulty'
  const at = deps.now()
  try {
    return await deps.db.transaction().execute(async trx => {
      const { taken_in_at, columns } = await lockFile(trx, id)
      if (taken_in_at !== null) return 'in before'
      if (!isDeepStrictEqual(columns, matched)) return 'changed'
      const { country } = await requireBusiness(trx)
      const counts = await insertPeople(trx, id, customers, country, at)
      await trx
        .updateTable('moving_in')
        .set({ ...counts, file: null, taken_in_at: at.toString(), taken_in_by: accountId })
        .where('id', '=', id)
        .execute()
      return 'in'
    })
  } catch (error) {
    if (isUniqueViolation(error, 'moving_in_standing')) return 'same file'
    throw error
  }
}

export type TakenBack = { ok: true } | { ok: false; builtOn: { name: string; what: string }[] }

/**
 * Takes all that a file brought back out, unless something was built on it since; what that is, is told. Taken back
 * before, it changes nothing.
 * @throws {NotFound} when it was never taken in
 */
export async function takeBackFile(deps: Deps, accountId: number, id: number): Promise<TakenBack> {
  try {
    return await deps.db.transaction().execute(async trx => {
      const { taken_in_at, taken_back_at } = await lockFile(trx, id)
      if (taken_in_at === null) throw new NotFound()
      if (taken_back_at !== null) return { ok: true }
      // Whoever joins takes the same.
      for (const kind of ['customer', 'place'])
        await sql`select pg_advisory_xact_lock(hashtext(${`${kind} joined`}))`.execute(trx)
      const builtOn = await findBuiltOn(trx, id)
      if (builtOn.length > 0) return { ok: false, builtOn }
      await deletePeople(trx, id)
      await trx
        .updateTable('moving_in')
        .set({ taken_back_at: deps.now().toString(), taken_back_by: accountId })
        .where('id', '=', id)
        .execute()
      return { ok: true }
    })
  } catch (error) {
    if (isForeignKeyViolation(error)) throw new Refusal(409, 'error.stage', { number: '' })
    throw error
  }
}
