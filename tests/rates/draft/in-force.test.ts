import { afterEach, beforeEach, expect, test } from 'vitest'
import { findRateTable, requireRateTable } from '../../../src/rates/queries.ts'
import { type TestApp, testApp } from '../../helpers/app.ts'
import { type Browser, openBusiness } from '../../helpers/people.ts'
import { bedTold, sendRequest, told } from '../../helpers/requests.ts'
import { drafting } from './drafting.ts'

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

test('the preview works past requests out at their own version, at that in force and at the draft', async () => {
  // 12 ft × 13.5 ft × 6 in is 81 ft³ = 3 yd³ in place, and a price is at the middle of the rates: 90 when
  // it came in, 100 in force, 180 in the draft.
  // 43004 isn't served, so there is no charge for travel.
  const bed = bedTold({ sizes: { length: '12 ft', width: '13.5 ft' }, depth: '6 in' })
  const { number } = await sendRequest(app, { told: told(bed) })
  const stone = await sendRequest(app, { told: told(bedTold({ finish: 'stone' })) })
  await draft.post('/rates', await draft.formOf('/rates', { 'rates.shredded-wood.0.upper': '120' }))
  await draft.saveSection('finish.shredded-wood', { 'rates.0.lower': '160', 'rates.0.upper': '200' })
  await draft.saveSection('finishes', { 'finishes.5.out': 'yes' })
  const page = (await owner.get('/rates/draft/preview')).text
  const row = (of: string) => page.slice(page.indexOf(`/queue/${of}`)).split('</tbody>')[0]!
  const amounts = [...row(number).matchAll(/class="amount">([^<]*)</g)].map(([, amount]) => amount)
  expect(amounts).toEqual(['$270.00', '$300.00', '$540.00', '+$240.00'])
  expect(row(stone.number)).toContain('can’t be priced with the draft')
  expect(page).toContain(
    'This request would have cost $540.00 with the draft, and $300.00 with version 2, which is in force. ' +
      'Difference: +$240.00. At the rates of the time, it came to $270.00.',
  )
})

test('put in force today it holds at once, the past version stays, and the draft ends', async () => {
  const before = await inForce()
  await draft.open()
  await draft.saveSection('prices', { minimumCharge: '175' })
  const form = await draft.formOf('/rates/draft/preview')
  const answers = await Promise.all([1, 2].map(() => draft.post('/rates/draft/put-in-force', form)))
  expect(answers.map(({ status }) => status).sort()).toEqual([303, 409])
  const after = await inForce()
  expect([after.version, after.body.minimumCharge]).toEqual([2, '175'])
  expect(await requireRateTable(app.db, before.id)).toEqual(before)
  expect(await app.db.selectFrom('rate_draft').selectAll().execute()).toEqual([])
})

test('put in force from a later day it waits until that day begins where the business is', async () => {
  await draft.open()
  await draft.saveSection('prices', { minimumCharge: '175' })
  expect((await draft.putInForce('2026-03-09')).status).toBe(303)
  expect((await inForce()).version).toBe(1)
  const page = (await owner.get('/rates')).text
  expect(page).toContain('Version 2 takes effect on Monday, March 9, 2026.')
  expect(page).toContain('Version 2 takes effect on Monday, March 9, 2026.')
  // Chicago is five hours behind by then: its midnight is 05:00 UTC.
  app.setClock('2026-03-09T04:59:59Z')
  expect((await inForce()).version).toBe(1)
  app.setClock('2026-03-09T05:00:00Z')
  expect((await inForce()).body.minimumCharge).toBe('175')
  const then = (await owner.get('/rates')).text
  expect(then).toContain('Version 2 is in force.')
  expect(then).not.toContain('waits')
})

test('refuses a day that is past, none at all, or years away', async () => {
  await draft.open()
  for (const day of ['2026-03-01', '2026-02-30', 'soon', '2028-03-03']) {
    const answer = await draft.putInForce(day)
    expect([day, answer.status]).toEqual([day, 422])
    expect(answer.text).toContain('id="day-error"')
    expect(answer.text).toContain(`value="${day}"`)
  }
  expect((await inForce()).version).toBe(1)
})

test('a version made meanwhile is shown before the draft takes its place', async () => {
  await draft.open()
  await draft.saveSection('prices', { minimumCharge: '175' })
  const seen = await draft.formOf('/rates/draft/preview')
  const handful = await draft.formOf('/rates', { minimumCharge: '160' })
  expect((await draft.post('/rates', handful)).status).toBe(303)
  const refused = await draft.post('/rates/draft/put-in-force', seen)
  expect(refused.status).toBe(409)
  expect(refused.text).toContain('Version 2 was made after you started this draft from version 1')
  expect(refused.text).toMatch(/minimum charge<\/th><td>\$160<\/td><td>\$175</)
  expect((await draft.putInForce('')).status).toBe(303)
  expect(await inForce()).toMatchObject({ version: 3, body: { minimumCharge: '175' } })
})

test('what is saved at once takes the place of a version that waits, and says so before', async () => {
  await draft.open()
  await draft.saveSection('prices', { minimumCharge: '175' })
  await draft.putInForce('2026-03-09')
  expect((await owner.get('/rates')).text).toContain('version 2 will never take effect')
  expect((await draft.post('/rates', await draft.formOf('/rates', { minimumCharge: '160' }))).status).toBe(
    303,
  )
  app.setClock('2026-03-10T15:00:00Z')
  expect(await inForce()).toMatchObject({ version: 3, body: { minimumCharge: '160' } })
})
