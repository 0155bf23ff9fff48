import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { deliver } from '../../src/letters/deliver.ts'
import { smtpMailer } from '../../src/letters/smtp.ts'
import { messages } from '../../src/messages.ts'
import { sendOffer } from '../../src/offers/offer.ts'
import { stopPath } from '../../src/offers/stop-link.ts'
import { confirmAddress } from '../../src/requests/confirm-address.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type MailServer, startMailServer } from '../helpers/mail-server.ts'
import { offerMade, offerSent, pastCustomer } from '../helpers/offers.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
let mailServer: MailServer

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  mailServer = await startMailServer()
})
beforeEach(async () => {
  await app.db.deleteFrom('offer_recipient').execute()
  await app.db.deleteFrom('outbox').execute()
  await app.db.deleteFrom('offer').execute()
  await app.db.deleteFrom('consent').execute()
  await app.db.updateTable('customer').set({ quiet_since: null }).execute()
  mailServer.letters.length = 0
  app.setClock('2026-03-02T15:00:00Z')
})
afterAll(async () => {
  await mailServer.stop()
  await app.close()
})

const offers = () => app.db.selectFrom('outbox').selectAll().where('kind', '=', 'offer').execute()
const consents = () => app.db.selectFrom('consent').selectAll().orderBy('id').execute()
const form = (customers: (string | number)[], instead = {}) => ({
  wordsEn: 'From $400 this year',
  wordsEs: '',
  postalAddress: '1 Fern Way\nAustin TX 78701',
  'customers[]': customers.map(String),
  ...instead,
})
const post = (path: string, fields: object) => owner.post(path).type('form').send(fields)

async function send(id: string) {
  const mailer = smtpMailer(mailServer.url)
  const outcome = await deliver({ ...app.deps, messages }, mailer, id)
  mailer.close()
  return outcome
}

test('the box of the form is off, and what is checked is kept with its words', async () => {
  const page = await app.browser().get('/request?as=look')
  expect(page.text).toMatch(/name="offersMail" value="yes"(?! checked)/)
  const fields = {
    as: 'look',
    submissionKey: randomUUID(),
    name: 'Carol',
    email: 'carol@example.com',
    phone: '',
  }
  const place = { street: '1 Elm', postcode: '78701' }
  const browser = app.browser()
  const refused = await browser
    .post('/requests')
    .type('form')
    .send({ ...fields, offersText: 'yes', ...place, name: '' })
  expect(refused.text).toMatch(/name="offersText" value="yes" checked/)
  const all = { ...fields, ...place, offersMail: 'yes', offersText: 'yes' }
  expect((await browser.post('/requests').type('form').send(all)).status).toBe(303)
  // There is no phone, so nothing that could be texted.
  expect(await consents()).toMatchObject([
    {
      way: 'mail',
      given: true,
      by_kind: 'homeowner',
      at: '2026-03-02T15:00:00Z',
      words: 'Fern Beds may email me offers, such as next spring’s price. I can stop them any time.',
    },
  ])
})

test('it is looked at with its count before, and goes once to each, whatever is pressed twice', async () => {
  const { customerId } = await pastCustomer(app, { email: 'dora@example.com' })
  await pastCustomer(app, { email: 'Dora@example.com' })
  const stranger = await sendRequest(app, { offersMail: 'yes', email: 'new@example.com' })
  await confirmAddress(app.deps, stranger.id)
  const list = (await owner.get('/offers')).text
  expect(list.match(/name="customers\[\]"/g)).toHaveLength(1)
  expect(list).not.toContain(stranger.number)
  const newest = /name="customers\[\]" value="(\d+)"/.exec(list)![1]!
  expect(Number(newest)).not.toBe(customerId)
  const made = await post('/offers', form([newest, 999_999]))
  expect(made.status).toBe(303)
  const preview = (await owner.get(made.headers.location!)).text
  expect(preview).toContain('<strong>1 person</strong>: 1 by email, 0 by text.')
  expect(preview).toContain('From $400 this year')
  expect(await offers()).toEqual([])
  const path = `${made.headers.location}/send`
  await Promise.all([post(path, {}), post(path, {})])
  await post(path, {})
  expect(await offers()).toHaveLength(1)
})

test.each([
  [{ postalAddress: ' ' }, 'Give the postal address'],
  [{ 'customers[]': [] }, 'Choose at least one person.'],
  [{ wordsEn: 'a'.repeat(1001) }, 'longer than 1,000'],
])('refused: %j', async (instead, sentence) => {
  const { customerId } = await pastCustomer(app)
  const answer = await post('/offers', form([customerId], instead))
  expect(answer.status).toBe(422)
  expect(answer.text).toContain(sentence)
})

test('only to confirmed addresses, and to nobody who wants to be left in peace', async () => {
  const { id, customerId } = await pastCustomer(app, { phone: '' })
  await app.db
    .updateTable('customer')
    .set({ email_confirmed_at: null })
    .where('id', '=', customerId)
    .execute()
  expect((await owner.get('/offers')).text).toContain('Nobody can get an offer yet')
  await confirmAddress(app.deps, id)
  expect((await owner.get('/offers')).text).toContain('name="customers[]"')
  await post(`/customers/${customerId}/quiet`, { quiet: 'yes' })
  expect((await owner.get('/offers')).text).toContain('Nobody can get an offer yet')
})

test('the mail says that it is an ad, where the business is, and how it stops, for a mail program too', async () => {
  const id = await offerMade(app, 1)
  await sendOffer(app.deps, id)
  const [row] = await offers()
  expect(await send(row!.id)).toBe('done')
  const letter = mailServer.letters[0]!
  const stop = `http://localhost:8080${stopPath(app.deps.secretKey, row!.id)}`
  const lines = letter.headerLines.map(({ line }) => line.replace(/\r?\n\s+/g, ' '))
  expect(lines).toContain(`List-Unsubscribe: <${stop}>`)
  expect(lines).toContain('List-Unsubscribe-Post: List-Unsubscribe=One-Click')
  for (const body of [letter.text, letter.html as string]) {
    expect(body).toContain('From $400')
    expect(body).toContain('This is an advertisement.')
    expect(body).toContain('1 Fern Way, Austin TX 78701')
    expect(body).toContain(stop)
  }
})

test('at night it waits, where the business is', async () => {
  await sendOffer(app.deps, await offerMade(app, 1))
  const [row] = await offers()
  // 7:59 in the morning in Chicago, then eight; nine in the evening, then a minute before.
  for (const [at, outcome] of [
    ['2026-03-03T13:59:59Z', 'again'],
    ['2026-03-04T03:00:00Z', 'again'],
    ['2026-03-04T02:59:59Z', 'done'],
  ] as const) {
    app.setClock(at)
    expect(await send(row!.id)).toBe(outcome)
  }
})

test('opening the link changes nothing; a post from anywhere, in either form, stops them', async () => {
  const path = await offerSent(app, 1)
  const page = await app.browser().get(path)
  expect(page.text).toContain('Stop offers by email?')
  expect((await consents()).every(({ given }) => given)).toBe(true)
  const boundary = 'b'
  const inParts = `--${boundary}\r\nContent-Disposition: form-data; name="List-Unsubscribe"\r\n\r\nOne-Click\r\n--${boundary}--\r\n`
  for (const [type, payload] of [
    ['application/x-www-form-urlencoded', 'List-Unsubscribe=One-Click'],
    [`multipart/form-data; boundary=${boundary}`, inParts],
  ] as const) {
    const headers = { 'content-type': type, origin: 'https://mail.example', 'sec-fetch-site': 'cross-site' }
    const answer = await app.server.inject({ method: 'POST', url: path, headers, payload })
    expect(answer.statusCode).toBe(200)
    expect(answer.body).toContain('You won’t get offers by email from now on.')
  }
  const taken = (await consents()).filter(({ given }) => !given)
  expect(taken.map(({ way, by_kind }) => [way, by_kind])).toEqual([['mail', 'homeowner']])
  const [row] = await offers()
  expect(await send(row!.id)).toBe('stopped')
  expect(await offers()).toMatchObject([{ last_fault: 'dropped: offers ended' }])
  for (const wrong of [path.slice(0, -1), path.replace(/offers-off\/[0-9a-f]/, 'offers-off/g')])
    expect((await app.browser().get(wrong)).status).toBe(404)
})
