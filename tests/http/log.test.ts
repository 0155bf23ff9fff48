import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import {
  ALICE,
  HUGO,
  helperBrowser,
  invitationPath,
  openBusiness,
  SET_UP_FIELDS,
  setUpPath,
} from '../helpers/people.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
})
afterAll(() => app.close())

test('the log names routes by their pattern, and no person, secret or link', async () => {
  const path = await setUpPath(app)
  await app.browser().get(path)
  await app
    .browser()
    .post(path)
    .type('form')
    .send({ ...SET_UP_FIELDS, units: 'none' })
  const { owner } = await openBusiness(app)
  await helperBrowser(app)
  await app
    .browser()
    .post('/sign-in')
    .type('form')
    .send({ email: ALICE.email, password: 'seekmenot seekmenot' })
  await app.browser().post('/sign-in').type('json').send('{"email":"seekmenot')
  await owner.get('/queue?q=seekmenot')
  await owner.get('/seekmenot')
  await app
    .browser()
    .post(await invitationPath(owner, { 'invite.email': '' }))
    .type('form')
    .send(HUGO)
  const session = await app.db.selectFrom('session').select('secret_hash').execute()
  const log = app.log.join('')
  expect(log).toContain('"route":"/set-up/:token"')
  expect(log).toContain('"route":"(none)"')
  const token = path.split('/').at(-1)!
  const marked = [token, ALICE.name, ALICE.email, ALICE.password, HUGO.name, HUGO.email, HUGO.password]
  for (const secret of [
    ...marked,
    'seekmenot',
    'Fern Beds',
    '555-0100',
    ...session.map(row => row.secret_hash),
  ])
    expect(log.includes(secret), secret).toBe(false)
})

test('every line is JSON with a status and a time in milliseconds', async () => {
  await app.browser().get('/livez')
  const line = JSON.parse(app.log.at(-1)!)
  expect(line).toMatchObject({ req: { method: 'GET', route: '/livez' }, status: 200, ms: expect.any(Number) })
  expect(line).not.toHaveProperty('remoteAddress')
})
