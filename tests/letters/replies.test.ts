import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { removeGateway, renewGatewaySecret, setGateway } from '../../src/letters/change-gateway.ts'
import { signWebhook } from '../../src/lib/webhook.ts'
import { findGateway } from '../../src/outbox/gateway.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  await setGateway(app.deps, 'https://texts.example.com/send')
})
afterAll(() => app.close())

const secretNow = async () => (await findGateway(app.db, app.deps.secretKey))!.secret

/** Posts as a gateway does; what is given instead counts. */
async function post(body: unknown, how: { id?: string; secret?: string; at?: Temporal.Instant } = {}) {
  const text = typeof body === 'string' ? body : JSON.stringify(body)
  const { id = randomUUID(), secret = await secretNow(), at = app.deps.now() } = how
  return app.server.inject({
    method: 'POST',
    url: '/texts/replies',
    headers: { 'content-type': 'application/json', ...signWebhook(secret, id, at, text) },
    body: text,
  })
}

const noteOf = async (id: number) =>
  (await app.db.selectFrom('quote_request').select('note').where('id', '=', id).executeTakeFirstOrThrow())
    .note

test('an answer becomes a note on the request, and the owner hears of it', async () => {
  const { id } = await sendRequest(app, { email: '', phone: '(614) 555-0142' })
  const answer = await post({ from: '+16145550142', text: 'Gate code\u0000 is 4711\r\n مرحبا 🌿' })
  expect(answer.statusCode).toBe(204)
  expect(await noteOf(id)).toBe('Gate code is 4711\n مرحبا 🌿')
  const told = await app.db
    .selectFrom('outbox')
    .select('kind')
    .where('quote_request_id', '=', id)
    .where('recipient', '=', 'owner')
    .execute()
  expect(told.map(({ kind }) => kind)).toContain('note-staff')
})

test('brought again it changes nothing, also after another one', async () => {
  const { id } = await sendRequest(app, { email: '', phone: '614 555 0143' })
  const first = randomUUID()
  for (const how of [{ id: first }, {}, { id: first }])
    expect((await post({ from: '6145550143', text: how.id ? 'One' : 'Two' }, how)).statusCode).toBe(204)
  expect(await noteOf(id)).toBe('One\n\nTwo')
})

test('of several requests with one phone it goes to the one whose message it answers, else to the newest', async () => {
  const phone = '614.555.0144'
  const first = await sendRequest(app, { email: '', phone })
  const second = await sendRequest(app, { email: '', phone })
  const { id: inReplyTo } = await app.db
    .selectFrom('outbox')
    .select('id')
    .where('quote_request_id', '=', first.id)
    .where('way', '=', 'text')
    .executeTakeFirstOrThrow()
  await post({ from: phone, text: 'To the first', inReplyTo })
  await post({ from: phone, text: 'To the newest' })
  expect([await noteOf(first.id), await noteOf(second.id)]).toEqual(['To the first', 'To the newest'])
  // Somebody else can’t write on it by its message.
  expect((await post({ from: '614 555 9999', text: 'Stranger', inReplyTo })).statusCode).toBe(422)
})

test('what is not signed, is too old, or can’t be read is refused, and writes nothing', async () => {
  const { id } = await sendRequest(app, { email: '', phone: '614 555 0145' })
  const reply = { from: '614 555 0145', text: 'Hello' }
  const refusals: [unknown, Parameters<typeof post>[1], number][] = [
    [reply, { secret: `whsec_${Buffer.alloc(32).toString('base64')}` }, 401],
    [reply, { at: app.deps.now().subtract({ minutes: 6 }) }, 401],
    ['{', {}, 400],
    ['null', {}, 400],
    [{ from: '614 555 0145' }, {}, 400],
    [{ from: '614 555 0145', text: ' ' }, {}, 400],
    [{ from: '12345', text: 'Short code' }, {}, 400],
    [{ from: ['614 555 0145'], text: 'Hello' }, {}, 400],
    [{ ...reply, text: 'x'.repeat(4001) }, {}, 400],
    [{ ...reply, from: '614 555 0146' }, {}, 422],
  ]
  for (const [body, how, status] of refusals) {
    const answer = await post(body, how)
    expect([body, answer.statusCode]).toEqual([body, status])
    expect(answer.json().error).toEqual(expect.any(String))
  }
  expect(await noteOf(id)).toBe('')
})

test('with another secret, and without a gateway, nothing that was signed before counts', async () => {
  const reply = { from: '614 555 0147', text: 'Hello' }
  await sendRequest(app, { email: '', phone: reply.from })
  const secret = await secretNow()
  await renewGatewaySecret(app.deps)
  expect((await post(reply, { secret })).statusCode).toBe(401)
  const renewed = await secretNow()
  expect((await post(reply)).statusCode).toBe(204)
  await removeGateway(app.deps)
  expect((await post(reply, { secret: renewed })).statusCode).toBe(401)
  await setGateway(app.deps, 'https://texts.example.com/send')
})
