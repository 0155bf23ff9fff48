import { afterAll, beforeAll, expect, test } from 'vitest'
import { findByToken, findLinkPath } from '../../src/requests/links.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptForm, post, quotedRequest } from '../helpers/bookings.ts'
import { openBusiness } from '../helpers/people.ts'
import { sendBy } from '../helpers/request-form.ts'

// Words that stand nowhere else; a phone number and an address that would be noticed.
const MARKED = {
  name: 'Zephyrine Quillfeather',
  phone: '(512) 555-0163',
  email: 'zephyrine@quillfeather.example',
  street: '9 Marzipan Crescent',
  gate: 'code 90210',
  dog: 'Bartholomew',
  note: 'behind the greenhouse',
}

let app: TestApp
beforeAll(async () => {
  app = await testApp()
})
afterAll(() => app.close())

test('from the form to the booked day the log has nothing of the homeowner, and no token', async () => {
  const { owner } = await openBusiness(app)
  const sent = await sendBy(app, MARKED)
  expect(sent.status).toBe(303)
  const own = sent.headers.location!
  await app.browser().get(own).expect(200)
  const sentId = (await findByToken(app.db, 'own page', own.split('/').at(-1)!, app.deps.now()))!
  const confirm = (await findLinkPath(app.db, app.deps.secretKey, 'email address', sentId))!
  await app.browser().get(confirm).expect(200)
  await post(app, confirm, {}).expect(303)
  await post(app, `${own}/note`, { note: MARKED.note })
  await post(app, `${own}/phone`, { phone: 'Bartholomew' })
  await owner.get('/queue?q=Quillfeather')
  const { id, number, path } = await quotedRequest(app, '3', MARKED)
  await app.browser().get(path).expect(200)
  await post(app, `${path}/check`, acceptForm({ typedName: MARKED.name })).expect(200)
  await post(app, `${path}/accept`, acceptForm({ typedName: MARKED.name })).expect(303)
  await post(app, `${path}/accept`, acceptForm({ typedName: MARKED.name, revision: '9' }))

  const { customer_id } = await app.db
    .selectFrom('quote_request')
    .select('customer_id')
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  const person = `/customers/${customer_id}`
  for (const page of [
    '/customers?q=Zephyrine',
    person,
    `${person}/erase`,
    '/outbox',
    '/days',
    `/queue/${number}`,
  ])
    await owner.get(page).expect(200)
  await owner.post(`/queue/${number}/note`).type('form').send({ note: MARKED.note })
  await owner.post(`${person}/consent`).type('form').send({ said: MARKED.note })
  await owner
    .post('/put-in')
    .type('form')
    .send({ ...MARKED, beds: MARKED.note })
  await owner.post(`${person}/export`).expect(200)
  await owner.post(`${person}/erase`).type('form').send({ word: MARKED.name }).expect(422)
  await sendBy(app, { ...MARKED, email: 'zephyrine at quillfeather.example', postcode: MARKED.street })
  await app.store.executeSql('alter table history rename to history_away')
  await owner.post(`/queue/${number}/note`).type('form').send({ note: MARKED.note }).expect(500)
  await sendBy(app, MARKED).expect(500)

  const ownOfSecond = await findLinkPath(app.db, app.deps.secretKey, 'own page', id)
  const tokens = [own, confirm, path, ownOfSecond!].map(link => link.split('/').at(-1)!)
  const log = app.log.join('')
  expect(log).toContain('"route":"/b/:token/accept"')
  expect(log).toContain('"route":"/r/:token/note"')
  for (const secret of [...Object.values(MARKED), '5550163', 'Quillfeather', ...tokens]) {
    expect(log.includes(secret), secret).toBe(false)
  }
})
