import { afterEach, beforeEach, expect, test } from 'vitest'
import { json } from '../../src/db/json.ts'
import { findRateTable, nextVersionNumber } from '../../src/rates/queries.ts'
import { callOffVersion } from '../../src/rates/versions/call-off.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness, SETTINGS_FIELDS } from '../helpers/people.ts'
import { bedTold, told } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterEach(() => app.close())

/** What a bed of one square foot is said to cost: the minimum charge, 150 as it was set up. */
async function minimumShown(): Promise<string> {
  const bed = bedTold({ sizes: { length: '1 ft', width: '1 ft' } })
  const answer = await app.browser().post('/ballpark').send(told(bed))
  return answer.body.range.likely
}

/** Puts a version with a minimum charge in force at once or from a moment on. Gives its number. */
async function withMinimum(minimumCharge: string, from: string | null = null): Promise<number> {
  const { body } = (await findRateTable(app.db, app.deps.now()))!
  const version = await nextVersionNumber(app.db)
  const made = { made_at: app.deps.now().toString(), made_by: 1, in_force_from: from }
  await app.db
    .insertInto('rate_table')
    .values({ version, body: json({ ...body, minimumCharge }), ...made })
    .execute()
  return version
}

test('a price that the owner changes is shown at once, and so is the business', async () => {
  expect(await minimumShown()).toBe('150.00')
  await withMinimum('175')
  expect(await minimumShown()).toBe('175.00')
  expect((await app.browser().get('/')).text).toContain('Fern Beds')
  const changed = { ...SETTINGS_FIELDS, 'business.name': 'Moss Beds' }
  expect((await owner.post('/settings/business').type('form').send(changed)).status).toBe(303)
  for (const path of ['/', '/?beds.1.shape=circle', '/sign-in', '/nowhere']) {
    const { text } = await app.browser().get(path)
    expect(text).toContain('Moss Beds')
    expect(text).not.toContain('Fern Beds')
  }
})

test('a version that waits comes into force at its moment by the clock, to the second, and not before', async () => {
  await withMinimum('175', '2026-03-09T06:00:00Z')
  await withMinimum('190', '2026-03-16T05:00:00Z')
  for (const [at, minimum] of [
    ['2026-03-02T15:00:00Z', '150.00'],
    ['2026-03-09T05:59:59Z', '150.00'],
    ['2026-03-09T06:00:00Z', '175.00'],
    ['2026-03-16T04:59:59Z', '175.00'],
    ['2026-03-16T05:00:00Z', '190.00'],
    // A clock that was wrong is put right.
    ['2026-03-12T00:00:00Z', '175.00'],
    ['2026-03-01T00:00:00Z', '150.00'],
  ] as const) {
    app.setClock(at)
    expect([at, await minimumShown()]).toEqual([at, minimum])
    // Read once for the whole time that it holds.
    expect(await app.deps.standing.read()).toBe(await app.deps.standing.read())
  }
})

test('one that is called off, or that a newer one takes the place of, never does', async () => {
  const waiting = await withMinimum('175', '2026-03-09T06:00:00Z')
  expect(await minimumShown()).toBe('150.00')
  await callOffVersion(app.deps, 1, waiting)
  await withMinimum('190', '2026-03-16T05:00:00Z')
  await withMinimum('160')
  for (const at of ['2026-03-02T15:00:00Z', '2026-03-09T06:00:00Z', '2026-03-16T05:00:00Z']) {
    app.setClock(at)
    expect([at, await minimumShown()]).toEqual([at, '160.00'])
  }
})

test('what is kept can’t be written to by one of those who share it', async () => {
  const { rates, business } = await app.deps.standing.read()
  expect(() => rates!.body.finishes.reverse()).toThrow(TypeError)
  expect(() => Object.assign(rates!.body.finishes[0]!, { soldOut: true })).toThrow(TypeError)
  expect(() => business!.working_days.push(7)).toThrow(TypeError)
})

test('what another process changes is seen once somebody has looked', async () => {
  expect(await minimumShown()).toBe('150.00')
  await app.store.executeSql(`insert into rate_table (version, body, made_at, made_by)
    select 2, jsonb_set(body, '{minimumCharge}', '"175"'), made_at, made_by from rate_table`)
  await app.deps.standing.look()
  expect(await minimumShown()).toBe('175.00')
})
