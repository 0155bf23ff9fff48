import { json } from '../../src/db/json.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { rateTableSchema } from '../../src/estimate/table/rate-table-schema.ts'
import { saveDraft } from '../../src/rates/draft/draft.ts'
import { requireDraftState } from '../../src/rates/draft/state.ts'
import { findRateTable } from '../../src/rates/queries.ts'
import type { TestApp } from './app.ts'

/** Puts a version in force that is made from the one before, as the owner's spreadsheet would. Gives its number. */
export async function putInForce(app: TestApp, remake: (inForce: RateTable) => RateTable): Promise<number> {
  const { body } = (await findRateTable(app.db, app.deps.now()))!
  const { id } = await app.db
    .selectFrom('account')
    .select('id')
    .where('role', '=', 'owner')
    .executeTakeFirstOrThrow()
  const { newest } = await app.db
    .selectFrom('rate_table')
    .select(eb => eb.fn.max<number>('version').as('newest'))
    .executeTakeFirstOrThrow()
  const made = { made_at: app.deps.now().toString(), made_by: id }
  const next = json(rateTableSchema.parse(remake(body)))
  await app.db
    .insertInto('rate_table')
    .values({ version: newest + 1, body: next, ...made })
    .execute()
  return newest + 1
}

/** Has a draft of the rates with something different in it. */
export async function beginDraft({ db, deps }: TestApp, ownerId: number): Promise<void> {
  const { seen, body } = await requireDraftState(db)
  await saveDraft(deps, ownerId, seen, { ...body, minimumCharge: '160' })
}
