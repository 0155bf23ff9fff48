import { once } from 'node:events'
import { type AddressInfo, createServer, type Server, type Socket } from 'node:net'
import { afterEach, beforeEach, expect, onTestFinished, test } from 'vitest'
import { smtpMailer } from '../../src/letters/smtp.ts'
import { sendMail } from '../../src/letters/worker.ts'
import { messages } from '../../src/messages.ts'
import { startMailServer } from '../helpers/mail-server.ts'
import { type MailingApp, mailingApp } from '../helpers/mailing.ts'
import { ALICE, signedIn } from '../helpers/people.ts'
import { sendForm } from '../helpers/request-form.ts'
import { until } from '../helpers/until.ts'

/** Longer than the test: a server that says nothing keeps whoever waits for it until it is gone. */
const PATIENCE = { greeting: 120_000, answer: 120_000 }
const START = Temporal.Instant.from('2026-03-02T15:00:00Z')
/** No copies of one another, which would be held as maybe junk. */
const NOTES = ['the oak', 'by the porch', 'two steps up', 'a fence', 'old stones', 'ivy', 'roses', 'sandy']

let mailing: MailingApp
beforeEach(async () => {
  mailing = await mailingApp()
})
afterEach(() => mailing.close())

test('eight hours without a mail server: pages wait for nothing, and everything arrives after, as of when it was written', async () => {
  const { app } = mailing
  const port = await portOfNobody()
  const smtpUrl = `smtp://127.0.0.1:${port}`
  app.deps.config = { ...app.deps.config, smtpUrl }
  await sendMail(mailing.work, { ...app.deps, messages }, smtpMailer(smtpUrl, PATIENCE))
  const staff = await signedIn(app, ALICE)

  const hour = async (n: number) => {
    app.setClock(START.add({ hours: n }).toString())
    const name = `Homeowner ${n}`
    const fields = { name, email: `homeowner-${n}@example.com`, note: NOTES[n]! }
    const sent = await sendForm(app, fields)
    expect((await app.browser().get(sent.location!)).text).toContain(name)
    expect((await staff.get('/queue')).text).toContain(name)
    const { number } = await app.db
      .selectFrom('quote_request')
      .select('number')
      .orderBy('id', 'desc')
      .executeTakeFirstOrThrow()
    const time = `${String(8 + n).padStart(2, '0')}:00`
    const visit = { 'visit.date': '2026-03-06', 'visit.time': time, 'visit.anyway': 'yes' }
    expect((await staff.post(`/queue/${number}/visit`).type('form').send(visit)).status).toBe(303)
  }
  // Nobody listens; then somebody does who never says a word.
  for (const n of [0, 1, 2, 3]) await hour(n)
  await until(() => outbox().then(rows => rows.some(({ attempts }) => attempts > 0)), { what: 'a try' })
  const silent = await serverThatIsSilent(port)
  await until(() => mailing.makeDue().then(() => silent.connections.length === 1), {
    within: 10_000,
    what: 'somebody to wait for it',
  })
  for (const n of [4, 5, 6, 7]) await hour(n)
  // The work in the background alone still waits, on the one connection that it had before.
  expect(silent.connections.map(({ closed }) => closed)).toEqual([false])
  const waiting = await outbox()
  expect(waiting.filter(({ sent_at }) => sent_at)).toEqual([])
  await silent.stop()

  const server = await startMailServer(undefined, port, { drops: 1 })
  onTestFinished(server.stop)
  app.setClock(START.add({ hours: 8 }).toString())
  const allSent = async () => {
    await mailing.makeDue()
    return (await outbox()).every(({ sent_at }) => sent_at)
  }
  await until(allSent, { within: 20_000, what: 'everything to be sent' })
  const ids = server.letters.map(({ messageId }) => messageId)
  // The first was taken in, but the connection broke before that was said: it comes twice, as the same mail.
  expect(ids.toSorted()).toEqual([ids[0], ...waiting.map(({ id }) => `<${id}@localhost>`)].toSorted())
  // Whichever try comes first, mail programs put them in order by when they were written.
  const written = new Map(waiting.map(({ id, made_at }) => [`<${id}@localhost>`, Date.parse(made_at)]))
  for (const { messageId, date } of server.letters) expect(date!.getTime()).toBe(written.get(messageId!))
  expect(new Set(written.values()).size).toBe(8)
  expect(mailing.faults).toEqual([])
})

function outbox() {
  return mailing.app.db
    .selectFrom('outbox')
    .select(['id', 'made_at', 'attempts', 'sent_at'])
    .orderBy('made_at')
    .execute()
}

async function portOfNobody(): Promise<number> {
  const { port, stop } = await startMailServer()
  await stop()
  return port
}

/** A server that takes connections and never says anything; when stopped, they break. */
async function serverThatIsSilent(port: number) {
  const connections: Socket[] = []
  const server: Server = createServer(socket => {
    connections.push(socket)
    socket.on('error', () => {})
  }).listen(port, '127.0.0.1')
  await once(server, 'listening')
  expect((server.address() as AddressInfo).port).toBe(port)
  const stop = async () => {
    if (!server.listening) return
    for (const socket of connections) socket.destroy()
    server.close()
    await once(server, 'close')
  }
  onTestFinished(stop)
  return { connections, stop }
}
