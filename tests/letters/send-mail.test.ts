import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { confirmAddress } from '../../src/requests/confirm-address.ts'
import { sendQuoteRequest } from '../../src/requests/quote-request.ts'
import { type MailServer, startMailServer } from '../helpers/mail-server.ts'
import { type MailingApp, mailingApp } from '../helpers/mailing.ts'
import { ALICE } from '../helpers/people.ts'
import { sending, sendRequest } from '../helpers/requests.ts'
import { until } from '../helpers/until.ts'

let mailing: MailingApp
let mailServer: MailServer

beforeAll(async () => {
  mailing = await mailingApp()
  mailServer = await startMailServer()
  await mailing.sendBy(mailServer.url)
})

beforeEach(() => {
  mailServer.letters.length = 0
  // One address may get few mails in an hour.
  mailing.app.setClock(mailing.app.deps.now().add({ hours: 1 }).toString())
})

afterAll(async () => {
  await mailing.close()
  await mailServer.stop()
  expect(mailing.faults).toEqual([])
})

const lettersOf = (count: number) =>
  until(() => mailServer.letters.length >= count && [...mailServer.letters], {
    within: 15_000,
    what: 'letters',
  })

const to = (address: string, about = '') => {
  const letter = mailServer.letters.find(
    ({ to, subject }) =>
      to && !Array.isArray(to) && to.value[0]?.address === address && subject?.includes(about),
  )
  if (!letter) throw new Error(`No letter went to ${address}`)
  return letter
}

test('a request sent reaches the homeowner with a link to confirm the address by, and the owner', async () => {
  const { number, id, ownPath } = await sendRequest(mailing.app)
  await lettersOf(2)
  const letter = to('carol@example.com')
  expect(letter.subject).toBe(`We have your request ${number}`)
  expect(letter.from?.value[0]).toEqual({ address: 'hello@fernbeds.example', name: 'Fern Beds' })
  expect(letter.headerLines.find(({ key }) => key === 'to')?.line).toBe('To: carol@example.com')
  expect(letter.headers.get('auto-submitted')).toBe('auto-generated')
  const link = /http:\/\/localhost:8080(\/c\/\S+)/.exec(letter.text ?? '')?.[1]
  expect(letter.html).toContain(`href="http://localhost:8080${link}"`)
  const pressed = await mailing.app.browser().post(link!).type('form').send({})
  expect(pressed.headers.location).toBe(ownPath)
  await lettersOf(3)
  const receipt = to('carol@example.com', 'What you sent')
  expect(receipt.to).toMatchObject({ value: [{ name: 'Carol Reyes' }] })
  expect(receipt.text).toContain('12 Fern Lane')
  expect(receipt.text).toContain(`http://localhost:8080${ownPath}\n`)
  expect(to(ALICE.email).text).toContain(`http://localhost:8080/queue/${number}`)
  const rows = await until(async () => {
    const found = await mailing.app.db
      .selectFrom('outbox')
      .selectAll()
      .where('quote_request_id', '=', id)
      .execute()
    return found.every(row => row.sent_at) && found
  })
  expect(rows.map(row => [row.kind, row.attempts, row.last_fault])).toEqual(
    expect.arrayContaining([
      ['request-received', 1, null],
      ['receipt', 1, null],
      ['request-arrived', 1, null],
    ]),
  )
})

test('a homeowner who wrote in Spanish is answered in Spanish', async () => {
  const { number } = await sendRequest(mailing.app, { language: 'es' })
  await lettersOf(2)
  expect(to('carol@example.com').subject).toBe(`Recibimos su solicitud ${number}`)
  expect(to('carol@example.com').html).toContain('<html lang="es">')
  expect(to(ALICE.email).subject).toBe(`New request ${number}`)
})

test('a line break in a name begins no header, and markup in it stays text in the HTML form', async () => {
  const { id } = await sendRequest(mailing.app, {
    name: '<b>Carol</b> & "Co"\r\nBcc: everyone@example.com',
    street: '1 A St\r\n\r\n.\r\nQUIT',
  })
  await confirmAddress(mailing.app.deps, id)
  await lettersOf(3)
  const letter = to('carol@example.com', 'What you sent')
  expect(letter.bcc).toBeUndefined()
  expect([...letter.headers.keys()]).not.toContain('bcc')
  expect(letter.html).toContain('&lt;b&gt;Carol&lt;/b&gt; &amp; &quot;Co&quot;')
  expect(letter.text).toContain('Hello <b>Carol</b> & "Co" Bcc: everyone@example.com,')
  expect(mailServer.letters).toHaveLength(3)
})

test('a transaction that is rolled back sends nothing', async () => {
  const { app, work } = mailing
  const refused = app.db.transaction().execute(async trx => {
    await work.jobs.sendMail(trx, '00000000-0000-4000-8000-000000000001')
    throw new Error('refused')
  })
  await expect(refused).rejects.toThrow('refused')
  const { rows } = await app.store.executeSql(
    `select id from pgboss.job where data->>'outboxId' = '00000000-0000-4000-8000-000000000001'`,
  )
  expect(rows).toEqual([])
})

test('the same form sent twice is one mail to each', async () => {
  const values = sending()
  await Promise.all([sendQuoteRequest(mailing.app.deps, values), sendQuoteRequest(mailing.app.deps, values)])
  await lettersOf(2)
  await until(async () => {
    const { rows } = await mailing.app.store.executeSql(
      `select id from pgboss.job where name = 'send-mail' and state in ('created', 'active', 'retry')`,
    )
    return rows.length === 0
  })
  expect(mailServer.letters).toHaveLength(2)
})
