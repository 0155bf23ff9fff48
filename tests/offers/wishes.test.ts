import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { setGateway } from '../../src/letters/change-gateway.ts'
import { signWebhook } from '../../src/lib/webhook.ts'
import { findGateway } from '../../src/outbox/gateway.ts'
import { mailHomeowner } from '../../src/requests/mail-homeowner.ts'
import { setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { pastCustomer } from '../helpers/offers.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
beforeEach(async () => {
  await app.db.deleteFrom('offer_recipient').execute()
  await app.db.deleteFrom('outbox').execute()
  await app.db.deleteFrom('offer').execute()
  await app.db.deleteFrom('consent').execute()
  await app.db.updateTable('customer').set({ quiet_since: null }).execute()
  app.setClock('2026-03-02T15:00:00Z')
})
afterAll(async () => {
  await app.close()
})

const consents = () => app.db.selectFrom('consent').selectAll().orderBy('id').execute()
const post = (path: string, fields: object) => owner.post(path).type('form').send(fields)

test('STOP by text takes back the consent of that phone, leaves the homeowner in peace, and is a note', async () => {
  await setGateway(app.deps, 'https://texts.example.com/send')
  const { id, customerId } = await pastCustomer(app, { phone: '614 555 0177', email: '' })
  const { secret } = (await findGateway(app.db, app.deps.secretKey))!
  const body = JSON.stringify({ from: '+16145550177', text: '¡Basta, por favor!' })
  const headers = {
    'content-type': 'application/json',
    ...signWebhook(secret, randomUUID(), app.deps.now(), body),
  }
  const answer = await app.server.inject({ method: 'POST', url: '/texts/replies', headers, body })
  expect(answer.statusCode).toBe(204)
  expect((await consents()).at(-1)).toMatchObject({ way: 'text', given: false, words: '¡Basta, por favor!' })
  const { note } = await app.db
    .selectFrom('quote_request')
    .select('note')
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  expect(note).toContain('¡Basta, por favor!')
  expect((await owner.get(`/customers/${customerId}`)).text).toContain(
    'They want messages about booked work only.',
  )
})

test('the homeowner decides on the own page; quiet leaves what concerns the visit and the booked job', async () => {
  const { id, ownPath, number } = await sendRequest(app, { email: 'eve@example.com', phone: '' })
  const wish = (fields: object) => app.browser().post(`${ownPath}/wishes`).type('form').send(fields)
  expect((await wish({ offersMail: 'yes', offersText: 'yes' })).status).toBe(303)
  await wish({ offersMail: 'yes' })
  expect((await consents()).map(({ way, given }) => [way, given])).toEqual([['mail', true]])
  await wish({ quiet: 'yes' })
  expect((await consents()).map(({ way, given }) => [way, given])).toEqual([
    ['mail', true],
    ['mail', false],
  ])
  expect((await app.browser().get(ownPath)).text).toMatch(/name="quiet" value="yes" checked/)
  expect((await owner.get(`/queue/${number}`)).text).toContain('Only about booked work')
  await app.db.transaction().execute(trx => mailHomeowner(trx, app.deps, 'quote-ready', id, app.deps.now()))
  await setVisit(app.deps, 1, id, app.deps.now().add({ hours: 48 }))
  const rows = await app.db
    .selectFrom('outbox')
    .select(['kind', 'last_fault'])
    .where('quote_request_id', '=', id)
    .where('recipient', '=', 'homeowner')
    .where('kind', 'in', ['visit-set', 'quote-ready'])
    .orderBy('kind')
    .execute()
  expect(rows).toEqual([
    { kind: 'quote-ready', last_fault: 'dropped: quiet' },
    { kind: 'visit-set', last_fault: null },
  ])
  expect((await owner.get(`/outbox?request=${number}`)).text).toContain(
    'wants messages about booked work only',
  )
})

test('what was said to the staff is written down in their words', async () => {
  const { customerId } = await pastCustomer(app, { offersMail: '', offersText: '' })
  const say = (fields: object) => post(`/customers/${customerId}/consent`, fields)
  expect((await say({ way: 'mail', given: 'yes', said: '' })).text).toContain('Write down what they said')
  const said = 'Sure, email me in spring: on the phone'
  expect((await say({ way: 'mail', given: 'yes', said })).status).toBe(303)
  expect(await consents()).toMatchObject([{ given: true, by_kind: 'staff', account_id: 1, words: said }])
  expect((await owner.get(`/customers/${customerId}`)).text).toContain(`“${said}”`)
  await say({ way: 'mail', given: 'no', said: 'Not any more' })
  expect((await owner.get('/offers')).text).toContain('Nobody can get an offer yet')
})
