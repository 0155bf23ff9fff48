import { createHmac } from 'node:crypto'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { removeGateway, setGateway } from '../../src/letters/change-gateway.ts'
import { deliverText } from '../../src/letters/deliver.ts'
import { numberOf } from '../../src/letters/text-gateway.ts'
import { messages } from '../../src/messages.ts'
import { countByHand } from '../../src/outbox/by-hand.ts'
import { findGateway } from '../../src/outbox/gateway.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { startTextGateway, type TextGateway } from '../helpers/gateway.ts'
import { openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let gateway: TextGateway

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  gateway = await startTextGateway()
})
beforeEach(async () => {
  gateway.posted.length = 0
  gateway.answer = { status: 204 }
  app.queuedTexts.length = 0
  app.setClock(app.deps.now().add({ hours: 1 }).toString())
  await removeGateway(app.deps)
})
afterAll(async () => {
  await gateway.stop()
  await app.close()
})

const byPhone = (instead = {}) => sendRequest(app, { email: '', ...instead })

async function textOf(quoteRequestId: number) {
  return app.db
    .selectFrom('outbox')
    .selectAll()
    .where('quote_request_id', '=', quoteRequestId)
    .where('way', '=', 'text')
    .executeTakeFirstOrThrow()
}

const send = (id: string) => deliverText({ ...app.deps, messages }, id)

test('whoever gave a phone alone is texted, and whoever gave a mail address is mailed', async () => {
  const phone = await textOf((await byPhone()).id)
  expect(phone).toMatchObject({ kind: 'request-received', recipient: 'homeowner', sent_at: null })
  const { id } = await sendRequest(app)
  const rows = await app.db
    .selectFrom('outbox')
    .select(['way', 'recipient'])
    .where('quote_request_id', '=', id)
    .orderBy('recipient')
    .execute()
  expect(rows).toEqual([
    { way: 'mail', recipient: 'homeowner' },
    { way: 'mail', recipient: 'owner' },
  ])
})

test('without a gateway a text waits for a hand; a new gateway gets those that wait, once', async () => {
  const before = await countByHand(app.deps)
  const { id } = await textOf((await byPhone()).id)
  expect(await countByHand(app.deps)).toBe(before + 1)
  expect(app.queuedTexts).toEqual([])
  await setGateway(app.deps, gateway.address)
  await setGateway(app.deps, gateway.address)
  expect(app.queuedTexts.filter(one => one === id)).toEqual([id])
  const { id: next } = await textOf((await byPhone()).id)
  expect(app.queuedTexts).toContain(next)
})

test('a gateway gets the words and the number, signed with the secret that Settings shows', async () => {
  await setGateway(app.deps, gateway.address)
  const { number, ownPath, id: requestId } = await byPhone({ name: 'Carol 🌿', phone: '(614) 555-0101' })
  const { id } = await textOf(requestId)
  expect(await send(id)).toBe('done')
  const [{ headers, body }] = gateway.posted as [TextGateway['posted'][0]]
  expect(JSON.parse(body)).toEqual({
    type: 'text',
    to: '+16145550101',
    text: `Fern Beds: We have your request ${number}: http://localhost:8080${ownPath}`,
    request: number,
    language: 'en',
  })
  const { secret } = (await findGateway(app.db, app.deps.secretKey))!
  const signed = `${headers['webhook-id']}.${headers['webhook-timestamp']}.${body}`
  const key = Buffer.from(secret.replace('whsec_', ''), 'base64')
  expect(key).toHaveLength(32)
  expect(headers['webhook-signature']).toBe(`v1,${createHmac('sha256', key).update(signed).digest('base64')}`)
  expect(headers['webhook-id']).toBe(id)
  expect(await textOf(requestId)).toMatchObject({
    attempts: 1,
    last_fault: null,
    sent_at: expect.any(String),
  })
  expect(await send(id)).toBe('done')
  expect(gateway.posted).toHaveLength(1)
})

test.each([
  [0, 'again', 'gateway away'],
  [500, 'again', 'gateway 500'],
  [429, 'again', 'gateway 429'],
  [401, 'again', 'gateway 401'],
  [400, 'stopped', 'stopped: gateway 400'],
  [422, 'stopped', 'stopped: gateway 422'],
])('an answer of %i: %s', async (status, outcome, fault) => {
  await setGateway(app.deps, gateway.address)
  gateway.answer = { status }
  const { id: requestId } = await byPhone({ phone: `614 555 0${status + 100}` })
  const { id } = await textOf(requestId)
  expect(await send(id)).toBe(outcome)
  expect(await textOf(requestId)).toMatchObject({ sent_at: null, last_fault: fault, attempts: 1 })
})

test('no redirect is followed', async () => {
  await setGateway(app.deps, gateway.address)
  const inside = await startTextGateway()
  gateway.answer = { status: 307, location: inside.address }
  const { id: requestId } = await byPhone({ phone: '614 555 0307' })
  expect(await send((await textOf(requestId)).id)).toBe('again')
  expect(inside.posted).toEqual([])
  await inside.stop()
})

test('one phone gets so many texts in an hour, and what is beyond is dropped and says so', async () => {
  await setGateway(app.deps, gateway.address)
  const outcomes = []
  for (let n = 0; n < 7; n += 1) {
    const { id } = await byPhone({ phone: n % 2 ? '614-555-0999' : '(614) 555 0999' })
    outcomes.push(await send((await textOf(id)).id))
  }
  expect(outcomes).toEqual([...Array(6).fill('done'), 'stopped'])
})

test('a text that lost its gateway on the way waits for a hand', async () => {
  const { id: requestId } = await byPhone()
  const { id } = await textOf(requestId)
  expect(await send(id)).toBe('done')
  expect(await textOf(requestId)).toMatchObject({ sent_at: null, last_fault: null, attempts: 0 })
})

test('a number has the code of the business’s country, and stays as it was typed where that isn’t known', () => {
  const typed = ['(614) 555-0199', '1 614 555 0199', '+44 20 7946 0018', '555-0199']
  const numbers = (country: string) => typed.map(phone => numberOf(phone, country))
  expect(numbers('US')).toEqual(['+16145550199', '+16145550199', '+442079460018', '5550199'])
  expect(numbers('GB')[2]).toBe('+442079460018')
  expect(numberOf('020 7946 0018', 'GB')).toBe('+442079460018')
  expect(numberOf('55 5555 0199', 'ZZ')).toBe('5555550199')
})
