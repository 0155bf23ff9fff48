import { afterEach, beforeEach, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness, SETTINGS_FIELDS } from '../helpers/people.ts'
import { sendBy } from '../helpers/request-form.ts'

let app: TestApp
let owner: Browser
beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app, { units: 'metric', currency: 'GBP' })).owner
})
afterEach(() => app.close())

const workIn = (country: string) =>
  owner
    .post('/settings/business')
    .type('form')
    .send({ ...SETTINGS_FIELDS, 'business.country': country })
    .expect(303)
const wordsOf = (page: string) => page.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')

test('a business with metric units begins outside the United States, and is asked which country in the settings', async () => {
  const { country } = await app.db.selectFrom('business').select('country').executeTakeFirstOrThrow()
  expect(country).toBe('ZZ')
  expect((await owner.get('/settings')).text).toMatch(/<option value="ZZ" selected>Another country</)
})

test.each([
  ['GB', 'Postcode of the property', 'square metres', 'SW1A 2AA'],
  ['CA', 'Postal code of the property', 'square metres', 'K1A 0B1'],
  ['US', 'ZIP code of the property', 'square meters', '43004'],
])('homeowners read and write as in %s', async (country, label, area, postcode) => {
  await workIn(country)
  const form = wordsOf((await app.browser().get('/')).text)
  expect(form).toContain(label)
  expect(form).toContain(area)
  const sent = await sendBy(app, { postcode })
  expect(sent.status).toBe(303)
  const own = wordsOf((await app.browser().get(sent.headers.location!)).text)
  expect(own).toContain(`${label.replace(' of the property', '')} ${postcode}`)
  const other = country === 'US' ? /postcode|postal code|metres/i : /\bZIP\b|\bmeters/i
  for (const page of [form, own]) expect(page).not.toMatch(other)
})

test('a ZIP code is asked for in the United States alone', async () => {
  await workIn('US')
  const refused = await sendBy(app, { postcode: 'SW1A 2AA' })
  expect(refused.status).toBe(422)
  expect(refused.text).toContain('A ZIP code has 5 digits, such as 43004.')
  expect(refused.text).toMatch(/name="postcode"[^>]* inputmode="numeric"/)
  await workIn('GB')
  const unreadable = await sendBy(app, { postcode: '?' })
  expect(unreadable.text).not.toContain('inputmode="numeric"')
  expect(unreadable.text).toContain('That doesn’t look like a postcode.')
  expect((await sendBy(app, { postcode: '' })).text).toContain('Please give us the postcode of the property.')
})
