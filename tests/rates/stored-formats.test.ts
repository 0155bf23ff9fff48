import { afterEach, beforeEach, expect, test } from 'vitest'
import { json } from '../../src/db/json.ts'
import { FORMAT, type StoredTable } from '../../src/estimate/table/complete-table.ts'
import { keptTables } from '../estimate/kept-formats.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { drafting } from './draft/drafting.ts'

let app: TestApp
let owner: Browser
beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterEach(() => app.close())

// Stored before tables had a number and said `labor`.
const { table: old } = keptTables().find(({ format }) => format === 2)!
const by = { made_at: '2026-03-01T12:00:00Z', made_by: 1 }

const stored = (version: number) =>
  app.db.selectFrom('rate_table').select('body').where('version', '=', version).executeTakeFirstOrThrow()

test('a version is stored with its format, and one of an older format is read and never rewritten', async () => {
  expect((await stored(1)).body.format).toBe(FORMAT)
  await app.db
    .insertInto('rate_table')
    .values({ version: 2, body: json(old), ...by })
    .execute()
  const draft = drafting(app, owner)
  const { status } = await draft.post('/rates', await draft.formOf('/rates', { minimumCharge: '131' }))
  expect(status).toBe(303)
  const { body } = await stored(3)
  expect(body).toMatchObject({ format: FORMAT, minimumCharge: '131', labor: { stair: '0.02' } })
  expect(body).not.toHaveProperty('labour')
  expect((await stored(2)).body).toEqual(old)
})

test('a draft of an older format is gone on with, and put in force in the format of today', async () => {
  const based_on = (await app.db.selectFrom('rate_table').select('id').executeTakeFirstOrThrow()).id
  const saved = { saved_at: by.made_at, saved_by: 1 }
  await app.db
    .insertInto('rate_draft')
    .values({ based_on, body: json(old), ...by, ...saved })
    .execute()
  const draft = drafting(app, owner)
  expect((await owner.get('/rates/draft/labour')).text).toContain('name="labor.stair"')
  expect((await draft.putInForce('2026-03-02')).status).toBe(303)
  const { body }: { body: StoredTable } = await stored(2)
  expect([body.format, body.labor.stair]).toEqual([FORMAT, '0.02'])
  expect(body).not.toHaveProperty('labour')
})
