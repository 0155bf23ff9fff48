import { afterEach, beforeEach, expect, test } from 'vitest'
import { isCheckViolation } from '../../src/db/violations.ts'
import { findRateTable } from '../../src/rates/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'
import { drafting } from './draft/drafting.ts'

let app: TestApp
let owner: Browser
let draft: ReturnType<typeof drafting>
beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  draft = drafting(app, owner)
})
afterEach(() => app.close())

const inForce = async () => (await findRateTable(app.db, app.deps.now()))!
const saveNow = async (minimumCharge: string) =>
  draft.post('/rates', await draft.formOf('/rates', { minimumCharge }))
const saveFrom = async (day: string, minimumCharge: string) => {
  await draft.saveSection('prices', { minimumCharge })
  return draft.putInForce(day)
}
const callOff = (version: number) => draft.post(`/rates/versions/${version}/call-off`)
const listed = async () => {
  const { text } = await owner.get('/rates/versions')
  return [...text.matchAll(/>Version (\d+)<\/a><\/span>\s*<span class="row-facts"><span>([^<]+)</g)].map(
    ([, version, words]) => `${version} ${words}`,
  )
}

test('lists every version with the days on which it was, is or will be in force', async () => {
  app.setClock('2026-03-02T16:00:00Z')
  await saveNow('160')
  app.setClock('2026-03-03T15:00:00Z')
  await saveFrom('2026-04-01', '170')
  await saveNow('165')
  await saveFrom('2026-05-01', '180')
  expect((await listed()).reverse()).toEqual([
    '1 in force on Monday, March 2, 2026',
    '2 in force from Monday, March 2, 2026 to Tuesday, March 3, 2026',
    '3 never took effect: a newer one replaced it',
    '4 in force since Tuesday, March 3, 2026, until Friday, May 1, 2026',
    '5 takes effect on Friday, May 1, 2026',
  ])
  const page = (await owner.get('/rates/versions/2')).text
  expect(page).toMatch(/minimum charge<\/th><td>\$150<\/td><td>\$160</)
  expect((await owner.get('/rates/versions/1')).text).toContain('This is the first version')
})

test('a version that waits can be called off, and never comes into force', async () => {
  await saveFrom('2026-04-01', '170')
  await saveFrom('2026-05-01', '180')
  const answers = await Promise.all([callOff(2), callOff(2)])
  expect(answers.map(({ status }) => status)).toEqual([303, 303])
  expect((await owner.get('/rates/versions/2')).text).toContain('Canceled on')
  expect((await owner.get('/rates')).text).not.toContain('Version 2 waits')
  app.setClock('2026-04-02T15:00:00Z')
  expect((await inForce()).version).toBe(1)
  app.setClock('2026-05-02T15:00:00Z')
  expect(await inForce()).toMatchObject({ version: 3, body: { minimumCharge: '180' } })
})

test('after one was called off, the next has a number of its own and follows on the one in force', async () => {
  await saveFrom('2026-04-01', '170')
  await callOff(2)
  app.setClock('2026-03-02T16:00:00Z')
  expect((await owner.get('/rates/draft')).text).toContain('from version 1')
  expect((await saveNow('155')).status).toBe(303)
  expect(await inForce()).toMatchObject({ version: 3, body: { minimumCharge: '155' } })
  expect(await listed()).toContain('1 in force on Monday, March 2, 2026')
})

test('refuses to call off what is in force, what was used, and what there is not', async () => {
  await saveFrom('2026-03-09', '170')
  expect((await callOff(1)).status).toBe(409)
  app.setClock('2026-03-09T05:00:00Z')
  const late = await callOff(2)
  expect([late.status, late.text.includes('already in force')]).toEqual([409, true])
  for (const version of ['9', '0', 'two'])
    expect((await draft.post(`/rates/versions/${version}/call-off`)).status).toBe(404)
  expect((await inForce()).version).toBe(2)
  // Even by a clock that is behind, the database keeps a version that a ballpark was worked out with.
  await sendRequest(app)
  const behind = app.store.executeSql(
    `insert into rate_table_called_off select id, timestamptz '2026-03-02', made_by from rate_table where version = 2`,
  )
  expect(await behind.catch(error => isCheckViolation(error, 'rate_table_called_off_in_time'))).toBe(true)
})

test('what was called off stays so in the database', async () => {
  await saveFrom('2026-04-01', '170')
  await callOff(2)
  await expect(app.db.deleteFrom('rate_table_called_off').execute()).rejects.toThrow('kept as they were made')
})

test('a draft can start from the figures of any version, where none is open', async () => {
  await saveNow('160')
  await saveNow('170')
  const answers = await Promise.all([draft.open(1), draft.open(1)])
  expect(answers.map(({ status }) => status).sort()).toEqual([303, 409])
  expect((await draft.stored()).body.minimumCharge).toBe('150')
  expect((await owner.get('/rates/draft')).text).toMatch(/minimum charge<\/th><td>\$170<\/td><td>\$150</)
  expect((await owner.get('/rates/versions/2')).text).toContain('A draft is already open')
  await draft.putInForce('')
  expect(await inForce()).toMatchObject({ version: 4, body: { minimumCharge: '150' } })
  expect((await draft.open(9)).status).toBe(404)
})

test('many versions stand on several pages', async () => {
  const { id, body, made_by, made_at } = await app.db
    .selectFrom('rate_table')
    .selectAll()
    .executeTakeFirstOrThrow()
  expect(id).toBeGreaterThan(0)
  const rows = Array.from({ length: 60 }, (_, index) => ({
    version: index + 2,
    body: JSON.stringify(body) as never,
    made_at,
    made_by,
  }))
  await app.db.insertInto('rate_table').values(rows).execute()
  const page = (await owner.get('/rates/versions')).text
  expect(page).toContain('>Version 61<')
  expect(page).not.toContain('>Version 11<')
  const older = /href="(\/rates\/versions\?before=\d+)"/.exec(page)![1]!
  expect((await owner.get(older)).text).toContain('>Version 11<')
})
