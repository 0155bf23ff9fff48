import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { replaceKey } from '../../src/key-check.ts'
import { removeGateway, setGateway } from '../../src/letters/change-gateway.ts'
import { deliver, deliverText } from '../../src/letters/deliver.ts'
import type { Mail } from '../../src/letters/letter.ts'
import { messages } from '../../src/messages.ts'
import { changeChoices, findChoices } from '../../src/outbox/choices.ts'
import { ASKED_AN_HOUR } from '../../src/requests/maybe-junk/ask-whether-real.ts'
import { holdAsMaybeJunk } from '../../src/requests/maybe-junk/hold.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { startTextGateway } from '../helpers/gateway.ts'
import { pathIn, withMailServer } from '../helpers/mailed-links.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { sending, sendRequest } from '../helpers/requests.ts'

const CAME = '2026-03-02T15:00:00Z'
const TYPED = 'Typed Name'

let app: TestApp
let owner: Browser
beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  withMailServer(app, '')
})
afterAll(() => app.close())
beforeEach(async () => {
  app.setClock(CAME)
  app.queuedTexts.length = 0
  await removeGateway(app.deps)
  for (const table of ['outbox', 'maybe_junk', 'mail_hour', 'message_choice'] as const)
    await app.db.deleteFrom(table).execute()
})

/** Has one held with so many points. */
async function held(points = 12, instead: Partial<Parameters<typeof sending>[0]> = {}) {
  const told = { beds: [], extras: [], postcode: '' }
  const note = 'See http://cheap.example'
  const typed = { told, sentAs: 'look' as const, name: TYPED, note, email: 'carol@home.example', ...instead }
  const verdict = { points, reasons: [{ points, words: '1 link in the note' }] }
  return holdAsMaybeJunk(app.deps, sending(typed), null, verdict)
}

const outbox = (kind: string) =>
  app.db.selectFrom('outbox').selectAll().where('kind', '=', kind).orderBy('made_at').execute()

/** Sends what waits of a kind; gives the mails. */
async function sent(kind: string): Promise<Mail[]> {
  const mails: Mail[] = []
  const mailer = { send: async (mail: Mail) => void mails.push(mail), close: () => {} }
  for (const { id, sent_at } of await outbox(kind))
    if (!sent_at) await deliver({ ...app.deps, messages }, mailer, id)
  return mails
}

const requestOf = (number: string) =>
  app.db.selectFrom('quote_request').select(['id', 'stage']).where('number', '=', number).executeTakeFirst()

test('in doubt one mail asks, with nothing that was typed; only the button takes it as real, once', async () => {
  const { number, ownPath } = await held()
  const [mail, ...others] = await sent('was-it-you')
  expect([mail!.to.address, mail!.to.name, others.length]).toEqual(['carol@home.example', '', 0])
  for (const typed of [TYPED, 'cheap.example', 'http://cheap'])
    expect(`${mail!.subject} ${mail!.text} ${mail!.html}`).not.toContain(typed)
  const path = pathIn(mail)
  const page = await app.browser().get(path)
  expect([page.status, page.text.includes(number), page.text.includes(TYPED)]).toEqual([200, true, false])
  expect(await requestOf(number)).toBeUndefined()
  const presses = await Promise.all([1, 2, 3].map(() => app.browser().post(path)))
  expect(presses.map(({ status, headers }) => [status, headers.location])).toEqual(
    Array(3).fill([303, ownPath]),
  )
  const { id } = (await requestOf(number))!
  const kinds = async () =>
    (await app.db.selectFrom('outbox').select('kind').where('quote_request_id', '=', id).execute()).map(
      ({ kind }) => kind,
    )
  expect((await kinds()).sort()).toEqual(['receipt', 'request-arrived', 'request-received'])
  expect((await owner.get('/queue')).text).toContain(number)
  expect((await app.browser().post(path)).headers.location).toBe(ownPath)
  expect((await app.browser().get(path)).headers.location).toBe(ownPath)
  expect(await kinds()).toHaveLength(3)
})

test('none for what is clearly junk, where it is switched off, or where nothing could send it', async () => {
  await held(16)
  await held(12, { email: '' })
  const choices = await findChoices(app.db)
  await changeChoices(app.db, { ...choices, 'was-it-you': { choice: 'off', days: null } })
  await held()
  await app.db.deleteFrom('message_choice').execute()
  const { config } = app.deps
  app.deps.config = { ...config, smtpUrl: undefined }
  await held()
  app.deps.config = config
  expect(await outbox('was-it-you')).toEqual([])
})

test('one an address a day, however it is written, and so many an hour in all', async () => {
  for (const email of ['carol@home.example', 'Carol@Home.example', 'carol+x@home.example'])
    await held(12, { email })
  expect(await outbox('was-it-you')).toHaveLength(1)
  for (let nth = 0; nth < ASKED_AN_HOUR + 5; nth++) await held(12, { email: `a${nth}@home.example` })
  expect(await outbox('was-it-you')).toHaveLength(ASKED_AN_HOUR)
  app.setClock('2026-03-02T16:00:00Z')
  await held(12, { email: 'late@home.example' })
  await held(12, { email: 'carol@home.example' })
  expect(await outbox('was-it-you')).toHaveLength(ASKED_AN_HOUR + 1)
  app.setClock('2026-03-03T15:00:00Z')
  await held(12, { email: 'carol@home.example' })
  expect(await outbox('was-it-you')).toHaveLength(ASKED_AN_HOUR + 2)
})

test('what the staff said is junk is asked about no more, and its link opens nothing; another key ends links too', async () => {
  const first = await held()
  const path = pathIn((await sent('was-it-you'))[0])
  const second = await held(12, { email: 'dora@home.example' })
  await owner.post(`/queue/maybe-junk/${first.number}/junk`)
  await owner.post(`/queue/maybe-junk/${second.number}/junk`)
  expect(await sent('was-it-you')).toEqual([])
  const answers = await Promise.all([app.browser().get(path), app.browser().post(path)])
  expect(answers.map(({ status }) => status)).toEqual([404, 404])
  await app.db.updateTable('maybe_junk').set({ junk_at: null }).execute()
  expect((await app.browser().get(path)).status).toBe(200)
  await replaceKey(app.db, 'another key for tests, 32 characters or more')
  expect((await app.browser().get(path)).status).toBe(404)
  await replaceKey(app.db, app.deps.secretKey)
  expect((await app.browser().get(path)).status).toBe(200)
})

test('one that the staff took as real leads on to the page that confirms the address', async () => {
  const { number } = await held()
  const path = pathIn((await sent('was-it-you'))[0])
  await owner.post(`/queue/maybe-junk/${number}/real`)
  const page = await app.browser().get(path)
  expect(page.text).toContain('carol@home.example')
  expect((await app.browser().post(path)).status).toBe(303)
})

test('the owner is mailed once a day at most that something is held, with how many there are', async () => {
  for (const points of [12, 30, 12]) await held(points, { email: '' })
  const mails = await sent('held-staff')
  expect(mails.map(({ subject }) => subject)).toEqual(['3 requests are held as maybe junk'])
  expect(pathIn(mails[0])).toBe('/queue/maybe-junk')
  app.setClock('2026-03-03T15:00:00Z')
  await held(30, { email: '' })
  await app.db.deleteFrom('maybe_junk').execute()
  expect(await sent('held-staff')).toEqual([])
  expect(await outbox('held-staff')).toHaveLength(2)
  const choices = await findChoices(app.db)
  await changeChoices(app.db, { ...choices, 'staff-held': { choice: 'off', days: null } })
  app.setClock('2026-03-04T15:00:00Z')
  await held()
  expect(await outbox('held-staff')).toHaveLength(2)
})

test('who left only a phone is texted by the gateway, and confirms by that link', async () => {
  const gateway = await startTextGateway()
  await setGateway(app.deps, gateway.address)
  const { number, ownPath } = await held(12, { email: '', phone: '512 555 0142' })
  await held(12, { email: '', phone: '(512) 555-0142' })
  const [row, ...others] = await outbox('was-it-you')
  expect([row?.way, others, app.queuedTexts]).toEqual(['text', [], [row!.id]])
  expect(await deliverText({ ...app.deps, messages }, row!.id)).toBe('done')
  await gateway.stop()
  const { to, text } = JSON.parse(gateway.posted[0]!.body)
  expect([to, text.includes(TYPED), text.includes('cheap')]).toEqual(['+15125550142', false, false])
  const [, path] = /http:\/\/localhost:8080(\/c\/[\w-]{43})$/.exec(text)!
  expect((await app.browser().post(path!)).headers.location).toBe(ownPath)
  expect((await requestOf(number))?.stage).toBe('new')
})

test('whoever asked to be left in peace isn’t asked', async () => {
  const { id } = await sendRequest(app, { phone: '(512) 555-0133', email: 'quiet@home.example' })
  await app.db
    .updateTable('customer')
    .set({ quiet_since: CAME })
    .where('id', '=', eb => eb.selectFrom('quote_request').select('customer_id').where('id', '=', id))
    .execute()
  await held(12, { email: 'Quiet@home.example' })
  await held(12, { email: 'other@home.example', phone: '512 555 0133' })
  expect(await outbox('was-it-you')).toEqual([])
  await held(12, { email: 'loud@home.example', phone: '' })
  expect(await outbox('was-it-you')).toHaveLength(1)
})
