import { afterEach, beforeEach, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import {
  ALICE,
  type Browser,
  HUGO,
  helperBrowser,
  openBusiness,
  SETTINGS_FIELDS,
  signedIn,
} from '../helpers/people.ts'

let app: TestApp
let owner: Browser
beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterEach(() => app.close())

const saveFacts = (changes: Record<string, string | string[]>) =>
  owner
    .post('/settings/business')
    .type('form')
    .send({ ...SETTINGS_FIELDS, ...changes })

const business = () => app.db.selectFrom('business').selectAll().executeTakeFirstOrThrow()

test('shows the business as it was set up', async () => {
  const { text } = await owner.get('/settings')
  expect(text).toContain('value="Fern Beds"')
  expect(text).toContain('name="business.laborHoursADay"')
  expect(text).toMatch(/<option value="America\/Chicago" selected>/)
  expect(text).toMatch(/<option value="US" selected>United States</)
  expect(text.match(/name="workingDays\[\]" value="\d"[^>]* checked/g)).toHaveLength(5)
})

test('changes the business, and leaves its units and currency', async () => {
  const answer = await saveFacts({
    'business.name': 'Fern & Moss Beds',
    'business.laborHoursADay': '12,5',
    'business.quoteHoldsDays': '14',
    'business.country': 'GB',
    'business.photosEach': '0',
    'business.photosMegabytes': '1,500',
    'business.photosMonths': '12',
    'workingDays[]': ['6', '2'],
    units: 'metric',
    currency: 'EUR',
  })
  expect([answer.status, answer.headers.location]).toEqual([303, '/settings'])
  expect(await business()).toMatchObject({
    name: 'Fern & Moss Beds',
    labor_hours_a_day: '12.50',
    quote_holds_days: 14,
    working_days: [2, 6],
    units: 'us',
    currency: 'USD',
    country: 'GB',
    photos_each: 0,
    photos_megabytes: 1500,
    photos_months: 12,
  })
  const { text } = await owner.get('/settings')
  expect(text).toContain('value="Fern &amp; Moss Beds"')
  expect(text).toContain('value="12.5"')
})

test('the rates ask for the areas served in the words of the country', async () => {
  expect((await owner.get('/rates')).text).toContain('ZIP codes you serve')
  await saveFacts({ 'business.country': 'CA' })
  const { text } = await owner.get('/rates')
  expect(text).toContain('Postal codes you serve')
  expect(text).not.toContain('ZIP')
})

test('refuses a fault beside it, and keeps what was typed', async () => {
  const before = await business()
  for (const [id, changes] of [
    ['business-name', { 'business.name': '' }],
    ['business-name', { 'business.name': 'x'.repeat(101) }],
    ['business-email', { 'business.email': 'a@b' }],
    ['business-email', { 'business.email': 'a@example.org\nBcc: b@example.org' }],
    ['business-timeZone', { 'business.timeZone': '+05:00' }],
    ['business-country', { 'business.country': 'XX' }],
    ['business-country', { 'business.country': '' }],
    ['business-laborHoursADay', { 'business.laborHoursADay': '241' }],
    ['business-quoteHoldsDays', { 'business.quoteHoldsDays': '0' }],
    ['business-answerWithinDays', { 'business.answerWithinDays': '31' }],
    ['business-photosEach', { 'business.photosEach': '7' }],
    ['business-photosMegabytes', { 'business.photosMegabytes': '9' }],
    ['business-photosMonths', { 'business.photosMonths': '' }],
    ['workingDays', { 'workingDays[]': [] as string[] }],
  ] as const) {
    const answer = await saveFacts({
      'business.phone': '555 0199 ext 4',
      ...(changes as Record<string, string>),
    })
    expect([id, answer.status]).toEqual([id, 422])
    expect(answer.text).toMatch(/<title>Error: Settings/)
    expect(answer.text).toContain(`<a href="#${id}">`)
    expect(answer.text).toContain(`id="${id}-error"`)
    expect(answer.text).toContain('value="555 0199 ext 4"')
  }
  expect(await business()).toEqual(before)
})

test('ending a helper’s account signs them out everywhere, and frees the address', async () => {
  const helper = await helperBrowser(app)
  const { id } = await app.db
    .selectFrom('account')
    .select('id')
    .where('role', '=', 'helper')
    .executeTakeFirstOrThrow()
  expect((await helper.get('/password')).status).toBe(200)
  expect((await owner.post(`/settings/staff/${id}/remove`)).status).toBe(303)
  expect((await helper.get('/password')).headers.location).toMatch(/^\/sign-in/)
  await expect(signedIn(app, HUGO)).rejects.toThrow('422')
  expect((await (await helperBrowser(app)).get('/password')).status).toBe(200)
  // A second tap, when somebody else has that address already, ends nobody else.
  const staff = () => app.db.selectFrom('account').select(['id', 'ended_at']).orderBy('id').execute()
  const before = await staff()
  expect((await owner.post(`/settings/staff/${id}/remove`)).status).toBe(303)
  expect(await staff()).toEqual(before)
})

test('the owner’s own account cannot be ended that way', async () => {
  const { id } = await app.db
    .selectFrom('account')
    .select('id')
    .where('role', '=', 'owner')
    .executeTakeFirstOrThrow()
  for (const wrong of [String(id), '0', '99999999999999999', 'x', '1e3'])
    expect((await owner.post(`/settings/staff/${wrong}/remove`)).status).toBe(404)
  expect(await signedIn(app, ALICE)).toBeDefined()
})
