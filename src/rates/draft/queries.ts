import type { Insertable, Kysely, Transaction } from 'kysely'
import type { RateDraftTable } from '../../db/schema/rates.ts'
import type { Database } from '../../db/schema.ts'
import { completeTable } from '../../estimate/table/complete-table.ts'

/** The open draft with who saved it last; undefined while there is none. */
export async function findDraft(db: Kysely<Database>) {
  const found = await db
    .selectFrom('rate_draft')
    .innerJoin('account', 'account.id', 'rate_draft.saved_by')
    .innerJoin('rate_table', 'rate_table.id', 'rate_draft.based_on')
    .select([
      'rate_draft.id',
      'rate_draft.body',
      'rate_draft.revision',
      'rate_draft.saved_at',
      'rate_draft.based_on',
      'rate_table.version as based_on_version',
      'account.name as saved_by_name',
    ])
    .executeTakeFirst()
  return found && { ...found, body: completeTable(found.body) }
}

export type Draft = NonNullable<Awaited<ReturnType<typeof findDraft>>>

export async function lockDraft(trx: Transaction<Database>) {
  return trx.selectFrom('rate_draft').selectAll().forUpdate().executeTakeFirst()
}

export async function insertDraft(trx: Transaction<Database>, row: Insertable<RateDraftTable>) {
  await trx.insertInto('rate_draft').values(row).execute()
}

export async function deleteDraft(trx: Transaction<Database>, id: number) {
  await trx.deleteFrom('rate_draft').where('id', '=', id).execute()
}
