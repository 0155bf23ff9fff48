import { once } from 'node:events'
import { type AddressInfo, createServer } from 'node:net'
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest'
import { deliver } from '../../src/letters/deliver.ts'
import { smtpMailer } from '../../src/letters/smtp.ts'
import { messages } from '../../src/messages.ts'
import { confirmAddress } from '../../src/requests/confirm-address.ts'
import { setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type MailServer, startMailServer } from '../helpers/mail-server.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

const SOON = { greeting: 300, answer: 300 }
let app: TestApp
let owner: Browser
let stops: (() => Promise<unknown>)[] = []

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
beforeEach(async () => {
  app.setClock('2026-03-02T15:00:00Z')
  await app.db.deleteFrom('mail_hour').execute()
})
afterEach(async () => {
  await Promise.all(stops.map(stop => stop()))
  stops = []
  app.deps.config = { ...app.deps.config, smtpUrl: undefined }
})
afterAll(() => app.close())

async function serverThat(...how: Parameters<typeof startMailServer>): Promise<MailServer> {
  const server = await startMailServer(...how)
  stops.push(server.stop)
  return server
}

/** Sends one message of the outbox; gives what became of it. */
async function send(id: string, url: string, patience?: typeof SOON) {
  const mailer = smtpMailer(url, patience)
  try {
    return await deliver({ ...app.deps, messages }, mailer, id)
  } finally {
    mailer.close()
  }
}

async function messageTo(instead: Parameters<typeof sendRequest>[1] = {}) {
  const request = await sendRequest(app, instead)
  return { ...request, ...(await newest(request.id)) }
}

async function newest(requestId: number) {
  const { id: outboxId } = await app.db
    .selectFrom('outbox')
    .select('id')
    .where('quote_request_id', '=', requestId)
    .where('recipient', '=', 'homeowner')
    .orderBy('made_at', 'desc')
    .executeTakeFirstOrThrow()
  return { outboxId }
}

const rowOf = (id: string) =>
  app.db.selectFrom('outbox').selectAll().where('id', '=', id).executeTakeFirstOrThrow()

test('what is refused for good stops, and shows at once beside the request, which then stands under Call', async () => {
  const server = await serverThat(() => ({ code: 550, words: 'no such user' }))
  const { id, number } = await sendRequest(app)
  app.setClock('2026-03-02T15:01:00Z')
  await setVisit(app.deps, 1, id, app.deps.now().add({ hours: 48 }))
  expect((await owner.get(`/queue/${number}`)).text).toContain('Next: <strong>measure</strong>')
  expect(await send((await newest(id)).outboxId, server.url)).toBe('stopped')
  const page = (await owner.get(`/queue/${number}`)).text
  expect(page).toContain('“We’re coming to measure” couldn’t be sent.')
  expect(page).toContain('The email address is probably wrong.')
  expect(page).toContain('Next: <strong>call</strong>')
})

test('a server that accepts the connection and says nothing is left, and tried again', async () => {
  const open = new Set<{ destroy(): void }>()
  const silent = createServer(socket => void open.add(socket)).listen(0, '127.0.0.1')
  await once(silent, 'listening')
  stops.push(async () => {
    for (const socket of open) socket.destroy()
    silent.close()
  })
  const { outboxId } = await messageTo()
  expect(await send(outboxId, `smtp://127.0.0.1:${(silent.address() as AddressInfo).port}`, SOON)).toBe(
    'again',
  )
  expect(await rowOf(outboxId)).toMatchObject({ sent_at: null, last_fault: 'ETIMEDOUT', attempts: 1 })
})

test('a connection that drops as the mail was taken in is the documented case: it comes twice, as the same mail', async () => {
  const server = await serverThat(undefined, 0, { drops: 1 })
  const { outboxId } = await messageTo()
  expect(await send(outboxId, server.url)).toBe('again')
  expect(await send(outboxId, server.url)).toBe('done')
  expect(server.letters.map(({ messageId }) => messageId)).toEqual(Array(2).fill(`<${outboxId}@localhost>`))
  expect(server.letters[1]!.date).toEqual(server.letters[0]!.date)
})

test('a server that refuses to encrypt gets nothing, and it is tried again', async () => {
  const server = await serverThat(undefined, 0, { host: '0.0.0.0' })
  const { outboxId } = await messageTo()
  expect(await send(outboxId, server.url)).toBe('again')
  expect(server.letters).toEqual([])
  expect(await rowOf(outboxId)).toMatchObject({ last_fault: 'no TLS' })
})

test('eight hours without a mail server, tried at growing gaps, and then each comes once', async () => {
  const { port, stop } = await startMailServer()
  await stop()
  const url = `smtp://127.0.0.1:${port}`
  const waiting: string[] = []
  for (const name of ['ann', 'bob'])
    waiting.push((await messageTo({ email: `${name}@example.com` })).outboxId)
  const start = app.deps.now()
  // As the job queue has it: half a minute, doubled up to a quarter of an hour.
  for (let at = 30, gap = 30; at <= 8 * 3600; gap = Math.min(2 * gap, 900), at += gap) {
    app.setClock(start.add({ seconds: at }).toString())
    for (const id of waiting) expect(await send(id, url)).toBe('again')
  }
  const counted = await app.db.selectFrom('mail_hour').select('mails').execute()
  expect(counted.every(({ mails }) => mails === 0)).toBe(true)
  const server = await serverThat(undefined, port)
  app.setClock(start.add({ hours: 8, minutes: 15 }).toString())
  for (const id of waiting) expect(await send(id, url)).toBe('done')
  for (const id of waiting) expect(await send(id, url)).toBe('done')
  expect(server.letters.map(({ messageId }) => messageId)).toEqual(waiting.map(id => `<${id}@localhost>`))
})

test.each([
  ['a long name', 'Maximiliana '.repeat(10).trim().slice(0, 119)],
  ['emoji', 'Carol 🌿👩‍🌾 Reyes'],
  ['right to left', 'كارول رييس'],
  ['turned round', 'Carol \u202Egnp.exe'],
  ['quotes and commas', '"Reyes, Carol" <carol@evil.example>'],
  ['a header', 'Carol\r\nBcc: everyone@example.com\r\n\r\nHi'],
])('%s arrives as it is, in both languages, in the header and in both bodies', async (_what, name) => {
  const server = await serverThat()
  for (const language of ['en', 'es'] as const) {
    app.setClock(app.deps.now().add({ hours: 1 }).toString())
    const { id } = await messageTo({ name, language, street: '1 Ñandú St 🌱' })
    await confirmAddress(app.deps, id)
    await setVisit(app.deps, 1, id, app.deps.now().add({ hours: 48 }))
    const { outboxId } = await app.db
      .selectFrom('outbox')
      .select('id as outboxId')
      .where('quote_request_id', '=', id)
      .where('kind', '=', 'visit-set')
      .executeTakeFirstOrThrow()
    expect(await send(outboxId, server.url)).toBe('done')
    const letter = server.letters.at(-1)!
    const line = name.replace(/\s+/g, ' ')
    expect(letter.to).toMatchObject({ value: [{ address: 'carol@example.com', name: line }] })
    expect([letter.bcc, letter.cc]).toEqual([undefined, undefined])
    expect(letter.subject).toMatch(language === 'en' ? /^We’re coming to measure: / : /^Vamos a medir: /)
    const greeting = language === 'en' ? `Hello ${line},` : `Hola, ${line}:`
    expect(letter.text).toContain(greeting)
    expect(letter.text).toContain('1 Ñandú St 🌱')
    const html = letter.html as string
    expect(html).toContain(`<html lang="${language}">`)
    expect(html.replaceAll('&quot;', '"').replaceAll('&lt;', '<').replaceAll('&gt;', '>')).toContain(greeting)
    expect(html).toContain('1 Ñandú St 🌱')
  }
})
