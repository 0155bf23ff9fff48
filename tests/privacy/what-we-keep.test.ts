import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

const PERIODS = { requestsMonths: '30', messagesMonths: '11', guessesDays: '9', filesDays: '13' }

const save = (fields: Record<string, string>) => owner.post('/settings/keeping').type('form').send(fields)

test('the periods that the owner sets stand on the homeowners’ page, in both languages', async () => {
  expect((await save(PERIODS)).status).toBe(303)
  const page = await app.browser().get('/privacy').expect(200)
  for (const words of [
    '30 months after that',
    '11 months.',
    'passwords 9 days',
    '13 days at most',
    '7 years',
  ])
    expect(page.text).toContain(words)
  const spanish = await app.browser().get('/privacy?language=es').expect(200)
  expect(spanish.text).toContain('30 meses después de eso')
})

test('the form and a homeowner’s own page have a link to it', async () => {
  const { ownPath } = await sendRequest(app)
  for (const path of ['/', ownPath])
    expect((await app.browser().get(path).expect(200)).text).toContain('href="/privacy"')
})

test.each([
  ['requestsMonths', '37', 'Give the months, from 1 to 36.'],
  ['messagesMonths', '0', 'Give the months, from 1 to 24.'],
  ['guessesDays', '31', 'Give the days, from 1 to 30.'],
  ['filesDays', '99', 'Give the days, from 1 to 30.'],
])('%s of %s is refused, and what was typed is kept', async (name, typed, sentence) => {
  const before = await app.db.selectFrom('business').select('keeping').executeTakeFirstOrThrow()
  const answer = await save({ ...PERIODS, filesDays: '12', [name]: typed })
  expect(answer.status).toBe(422)
  expect(answer.text).toContain(sentence)
  expect(answer.text).toContain(`value="${typed}"`)
  expect(await app.db.selectFrom('business').select('keeping').executeTakeFirstOrThrow()).toEqual(before)
})

test('nobody but the owner sees or sets them', async () => {
  const answer = await app.browser().post('/settings/keeping').type('form').send(PERIODS)
  expect(answer.headers.location).toContain('/sign-in')
})
