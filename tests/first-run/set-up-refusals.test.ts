import { afterAll, beforeAll, expect, test } from 'vitest'
import { setUpAddress } from '../../src/first-run/first-run.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { ALICE, SET_UP_FIELDS, setUpPath } from '../helpers/people.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
})
afterAll(() => app.close())

async function send(changes: Record<string, string | string[]>) {
  return app
    .browser()
    .post(await setUpPath(app))
    .type('form')
    .send({ ...SET_UP_FIELDS, ...changes })
}

test.each([
  ['owner.name', { 'owner.name': ' ' }],
  ['owner.email', { 'owner.email': 'alice at home' }],
  ['owner.password', { 'owner.password': 'fourteen chars' }],
  ['owner.password', { 'owner.password': 'password12345678' }],
  ['owner.password', { 'owner.password': 'Fern Beds Alice 2026!' }],
  ['business.name', { 'business.name': '' }],
  ['business.phone', { 'business.phone': 'none' }],
  ['business.email', { 'business.email': '@example.org' }],
  ['business.timeZone', { 'business.timeZone': 'Atlantis/Centre' }],
  ['business.laborHoursADay', { 'business.laborHoursADay': '0' }],
  ['business.quoteHoldsDays', { 'business.quoteHoldsDays': '366' }],
  ['business.answerWithinDays', { 'business.answerWithinDays': '1.5' }],
  ['workingDays', { 'workingDays[]': ['8'] }],
  ['units', { units: 'cubits' }],
  ['currency', { currency: 'XX1' }],
  ['rates.compost.0.upper', { 'rates.compost.0.upper': '' }],
  ['rates.compost.0.lower', { 'rates.compost.0.lower': '' }],
  ['rates.compost.0.upper', { 'rates.compost.0.lower': '91' }],
  ['rates.compost.0.lower', { 'rates.compost.0.lower': '-70' }],
  ['extras.edging.lower', { 'extras.edging.lower': 'cheap' }],
  ['minimumCharge', { minimumCharge: '' }],
  ['laborHoursPerVolume', { laborHoursPerVolume: '0' }],
  ['travel.0.postcodes', { 'travel.0.postcodes': '<b>' }],
  ['travel.0.postcodes', { 'travel.0.postcodes': '' }],
  ['travel.0.charge', { 'travel.0.charge': '12.345' }],
])('refuses a fault in %s beside it, and keeps what was typed', async (field, changes) => {
  const answer = await send(changes)
  expect(answer.status).toBe(422)
  const id = field.replaceAll('.', '-')
  expect(answer.text).toMatch(/<title>Error: /)
  expect(answer.text).toContain(`<a href="#${id}">`)
  expect(answer.text).toContain(`id="${id}"`)
  expect(answer.text).toContain(`id="${id}-error"`)
  for (const [name, typed] of Object.entries(changes))
    if (typeof typed === 'string' && typed.trim() && !/password|units|timeZone|postcodes/.test(name))
      expect(answer.text).toContain(`value="${typed}"`)
  expect(answer.text).toContain('value="(512) 555-0100"'.slice(0, field === 'business.phone' ? 6 : 100))
  expect(answer.text).not.toContain(ALICE.password)
  expect(await setUpAddress(app.deps)).not.toBeNull()
  expect(await app.db.selectFrom('account').select('id').execute()).toEqual([])
})

test('a form without any rates says so beside the first finish', async () => {
  const none = Object.fromEntries(
    Object.keys(SET_UP_FIELDS)
      .filter(name => name.startsWith('rates.'))
      .map(name => [name, '']),
  )
  const answer = await send(none)
  expect(answer.status).toBe(422)
  expect(answer.text).toContain('id="rates-shredded-wood-0-lower-error"')
})
