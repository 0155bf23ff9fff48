import { type Kysely, sql, type Transaction } from 'kysely'
import type { FileKind } from '../db/schema/people.ts'
import type { Database } from '../db/schema.ts'

/** How many papers there may be at a time. */
export const MOST_PAPERS = 20

export interface Paper {
  id: number
  name: string
}

export interface KeptFile {
  kind: FileKind
  bytes: Buffer
}

/** The papers that stand, by name. */
export async function findPapers(db: Kysely<Database>): Promise<Paper[]> {
  return db
    .selectFrom('paper')
    .select(['id', 'name'])
    .where('removed_at', 'is', null)
    .orderBy(sql`lower(name)`)
    .execute()
}

/** A paper that stands, with its file. */
export async function findPaper(
  db: Kysely<Database>,
  id: number,
): Promise<(KeptFile & { name: string }) | undefined> {
  return db
    .selectFrom('paper')
    .innerJoin('kept_file', 'kept_file.id', 'paper.file_id')
    .select(['kept_file.kind', 'kept_file.bytes', 'paper.name'])
    .where('paper.id', '=', id)
    .where('removed_at', 'is', null)
    .executeTakeFirst()
}

/** Keeps a file for good. Gives its id. */
export async function insertFile(
  trx: Transaction<Database>,
  { kind, bytes }: KeptFile,
  made: { at: Temporal.Instant; by: number },
): Promise<number> {
  const row = { kind, bytes, made_at: made.at.toString(), made_by: made.by }
  const { id } = await trx.insertInto('kept_file').values(row).returning('id').executeTakeFirstOrThrow()
  return id
}

/** Keeps a paper under its name, instead of the one that had it; whoever asks for that gets the new one. */
export async function upsertPaper(trx: Transaction<Database>, name: string, fileId: number): Promise<void> {
  await sql`
    insert into paper (name, file_id) values (${name}, ${fileId})
    on conflict (lower(name)) where removed_at is null
    do update set file_id = excluded.file_id, name = excluded.name`.execute(trx)
}

/** Takes a paper out; taken out before, it changes nothing. */
export async function removePaper(db: Kysely<Database>, id: number, at: Temporal.Instant): Promise<void> {
  await db
    .updateTable('paper')
    .set({ removed_at: at.toString() })
    .where('id', '=', id)
    .where('removed_at', 'is', null)
    .execute()
}

/** Lets go of the files that were replaced: of which there is neither a paper, a certificate nor a logo any more. */
export async function forgetReplaced(trx: Transaction<Database>): Promise<void> {
  await sql`
    delete from kept_file where not exists (select 1 from paper where file_id = kept_file.id)
      and not exists (select 1 from firm where certificate_file_id = kept_file.id)
      and not exists (select 1 from business where logo_file_id = kept_file.id)
      and not exists (select 1 from job_certificate where file_id = kept_file.id)`.execute(trx)
}
