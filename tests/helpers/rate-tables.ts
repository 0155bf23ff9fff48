import { json } from '../../src/db/json.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { rateTableSchema } from '../../src/estimate/table/rate-table-schema.ts'
import { findRateTable } from '../../src/rates/queries.ts'
import type { TestApp } from './app.ts'

/** Puts a version in force that is made from the one before, as the owner's spreadsheet would. Gives its number. */
export async function putInForce(app: TestApp, remake: (inForce: RateTable) => RateTable): Promise<number> {
  const { version, body } = (await findRateTable(app.db, app.deps.now()))!
  const { id } = await app.db
    .selectFrom('account')
    .select('id')
    .where('role', '=', 'owner')
    .executeTakeFirstOrThrow()
  const made = { made_at: app.deps.now().toString(), made_by: id }
  const next = json(rateTableSchema.parse(remake(body)))
  await app.db
    .insertInto('rate_table')
    .values({ version: version + 1, body: next, ...made })
    .execute()
  return version + 1
}
