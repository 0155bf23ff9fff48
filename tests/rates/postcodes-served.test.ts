import { afterEach, expect, test } from 'vitest'
import { findRateTable } from '../../src/rates/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'

let app: TestApp
afterEach(() => app.close())

test.each([
  ['78701, 78702\n787*', ['78701', '78702', '787*']],
  ['78701 78702 787*', ['78701', '78702', '787*']],
  ['sw1a 2aa, 114 55', ['SW1A 2AA', '114 55']],
])('%j are the places served', async (written, postcodes) => {
  app = await testApp()
  await openBusiness(app, { 'travel.0.postcodes': written })
  expect((await findRateTable(app.db, app.deps.now()))!.body.travel).toEqual([
    { postcodes, charge: '25', drive: null, driven: null },
  ])
})
