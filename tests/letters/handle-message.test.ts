import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { callOff } from '../../src/bookings/call-off.ts'
import { removeGateway, setGateway } from '../../src/letters/change-gateway.ts'
import { dropOvertaken } from '../../src/letters/drop-overtaken.ts'
import { messages as letters } from '../../src/messages.ts'
import { setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
let number: string
let requestId: number
let id: string

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
beforeEach(async () => {
  app.setClock('2026-03-02T15:00:00Z')
  // Else a gateway would take up what other tests left waiting.
  await app.db
    .updateTable('outbox')
    .set({ sent_at: '2026-03-02T15:00:00Z' })
    .where('sent_at', 'is', null)
    .execute()
  const sent = await sendRequest(app, { email: '' })
  number = sent.number
  requestId = sent.id
  id = (await messages())[0]!.id
  app.queuedTexts.length = 0
})
afterAll(() => app.close())

const messages = () =>
  app.db
    .selectFrom('outbox')
    .selectAll()
    .where('quote_request_id', '=', requestId)
    .where('recipient', '=', 'homeowner')
    .orderBy('made_at')
    .orderBy('kind')
    .execute()
const message = async () => (await messages()).find(one => one.id === id)!
const press = (verb: string, body = {}) => owner.post(`/outbox/${id}/${verb}`).type('form').send(body)
const page = async () => (await owner.get(`/outbox?request=${number}`)).text
const set = (values: object) => app.db.updateTable('outbox').set(values).where('id', '=', id).execute()

test('passed on by hand it counts as sent, and nothing undoes that', async () => {
  expect(await page()).toContain('Mark as passed on')
  expect((await press('passed-on', { request: number })).headers.location).toBe(`/outbox?request=${number}`)
  const passed = await message()
  expect(passed).toMatchObject({
    sent_at: '2026-03-02T15:00:00Z',
    passed_on_by: expect.any(Number),
    attempts: 0,
  })
  app.setClock('2026-03-02T16:00:00Z')
  for (const verb of ['passed-on', 'stop', 'again']) await press(verb)
  expect(await message()).toEqual(passed)
  expect(await page()).toContain('Passed on Mon, Mar 2, 9:00')
})

test('stopped it is dropped and says so, and can be sent after all', async () => {
  await press('stop')
  expect(await page()).toContain('You stopped it.')
  await setGateway(app.deps, 'https://texts.example.com/send')
  await press('again')
  await press('again')
  expect(app.queuedTexts).toEqual([id])
  expect(await message()).toMatchObject({ last_fault: null })
  await removeGateway(app.deps)
})

test('what failed says why and what to do, and is tried again once', async () => {
  await setGateway(app.deps, 'https://texts.example.com/send')
  app.queuedTexts.length = 0
  await set({ last_fault: 'stopped: gateway 422', attempts: 1 })
  const text = await page()
  expect(text).toContain('Your text gateway refused it (422). Check the phone number, or text it by hand.')
  expect(text).toContain('Couldn’t be sent <span class="step-count">1')
  await press('again')
  await press('again')
  expect(app.queuedTexts).toEqual([id])
  // Three days of tries begin anew.
  app.setClock('2026-03-06T15:00:00Z')
  expect(await page()).toContain('Not sent within three days')
  await press('again')
  expect(app.queuedTexts).toEqual([id, id])
  expect(await page()).toContain('Going out <span class="step-count">1')
  await removeGateway(app.deps)
})

test('two weeks on nobody needs it any more', async () => {
  await set({ tried_from: '2026-02-16T15:00:00Z' })
  expect(await page()).toContain('For you to send <span class="step-count">1')
  await set({ tried_from: '2026-02-16T14:59:59Z' })
  expect(await page()).toContain('Not passed on within two weeks.')
})

test('the queue says how many wait for a hand, and the request what failed and why', async () => {
  await app.db.updateTable('outbox').set({ sent_at: '2026-03-02T15:00:00Z' }).where('id', '<>', id).execute()
  expect((await owner.get('/queue')).text).toContain(
    '<a href="/outbox">1 message is waiting for you to send</a>',
  )
  await set({ last_fault: 'stopped: EENVELOPE 550' })
  expect((await owner.get('/queue')).text).not.toContain('waiting for you to send')
  const { text } = await owner.get(`/queue/${number}`)
  expect(text).toContain(
    '“We have your request” couldn’t be sent. The mail server refused it (EENVELOPE 550).',
  )
  expect(text).toContain(`href="/outbox?request=${number}"`)
})

test('what time has overtaken while it waited for a hand is dropped, and no longer counted', async () => {
  await app.db.updateTable('outbox').set({ sent_at: '2026-03-02T15:00:00Z' }).execute()
  const ownerId = (await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow()).id
  await setVisit(app.deps, ownerId, requestId, Temporal.Instant.from('2026-03-04T20:30:00Z'))
  const told = async () => (await messages()).find(({ kind }) => kind === 'visit-set')!
  const look = () => dropOvertaken({ ...app.deps, messages: letters })
  await look()
  expect(await told()).toMatchObject({ last_fault: null })
  expect((await owner.get('/queue')).text).toContain('1 message is waiting for you to send')
  app.setClock('2026-03-05T15:00:00Z')
  await look()
  expect(await told()).toMatchObject({ sent_at: null, last_fault: 'dropped: too late' })
  expect((await owner.get('/queue')).text).not.toContain('waiting for you to send')
})

test('whoever couldn’t be told is to be called, until it was passed on, stopped or tried again', async () => {
  const step = async () =>
    (
      await app.db
        .selectFrom('quote_request')
        .select('step')
        .where('id', '=', requestId)
        .executeTakeFirstOrThrow()
    ).step
  const ownerId = (await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow()).id
  await setVisit(app.deps, ownerId, requestId, Temporal.Instant.from('2026-03-04T20:30:00Z'))
  for (const verb of ['again', 'stop', 'again', 'passed-on']) {
    expect(await step()).toBe('Measure')
    await set({ last_fault: 'stopped: gateway 422' })
    expect(await step()).toBe('Call')
    expect((await owner.get('/queue')).text).toContain('a message couldn’t be sent')
    await press(verb)
  }
  expect(await step()).toBe('Measure')
})

test('a visit moved is one message, of the time that counts', async () => {
  const ownerId = (await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow()).id
  await setVisit(app.deps, ownerId, requestId, Temporal.Instant.from('2026-03-04T20:30:00Z'))
  await setVisit(app.deps, ownerId, requestId, Temporal.Instant.from('2026-03-05T20:30:00Z'))
  const visits = (await messages()).filter(({ kind }) => kind === 'visit-set')
  expect(visits.map(({ last_fault }) => last_fault).sort()).toEqual(['dropped: visit changed', null].sort())
  const text = await page()
  expect(text).toContain('We&#39;re coming Thu, Mar 5, 2:30 PM')
  expect(text).not.toContain('Mar 4')
})

test('what a cancellation overtakes is dropped', async () => {
  await callOff(app.deps, requestId, '')
  expect(await message()).toMatchObject({ sent_at: null, last_fault: 'dropped: canceled' })
  expect(await page()).toContain('Not sent, because the request was canceled.')
})

test('the page of one request has its messages alone, and a number that is none is left out', async () => {
  const other = await sendRequest(app, { email: '', name: 'Zora Else' })
  expect(await page()).not.toContain('Zora')
  expect((await owner.get(`/outbox?request=${other.number}`)).text).toContain('Zora')
  expect((await owner.get('/outbox?request=<b>')).text).toContain('Zora')
})

test('a message that isn’t there is not found', async () => {
  expect((await owner.post('/outbox/nothing/stop').type('form').send({})).status).toBe(404)
  const nobody = '00000000-0000-4000-8000-000000000001'
  expect((await owner.post(`/outbox/${nobody}/again`).type('form').send({})).status).toBe(303)
})
