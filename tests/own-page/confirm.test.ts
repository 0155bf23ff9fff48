import { afterAll, beforeAll, beforeEach, expect, onTestFinished, test } from 'vitest'
import { findLinkPath, type LinkPurpose } from '../../src/requests/links.ts'
import type { Sent } from '../../src/requests/quote-request.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let sent: Sent
let confirmPath: string
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
beforeEach(async () => {
  sent = await sendRequest(app, { note: 'The gate sticks' })
  confirmPath = (await linkOf(sent, 'email address'))!
})
afterAll(() => app.close())

const linkOf = ({ id }: Sent, purpose: LinkPurpose) => findLinkPath(app.db, app.deps.secretKey, purpose, id)
const press = (path = confirmPath) => app.browser().post(path).type('form').send({})
const confirmedAt = async ({ id }: Sent) => {
  const { email_confirmed_at } = await app.db
    .selectFrom('customer')
    .innerJoin('quote_request', 'quote_request.customer_id', 'customer.id')
    .select('email_confirmed_at')
    .where('quote_request.id', '=', id)
    .executeTakeFirstOrThrow()
  return email_confirmed_at
}
const verbsOf = async ({ id }: Sent) => {
  const rows = await app.db.selectFrom('history').select('verb').where('quote_request_id', '=', id).execute()
  return rows.map(({ verb }) => verb).sort()
}
const mailsOf = async ({ id }: Sent) => {
  const rows = await app.db.selectFrom('outbox').select('kind').where('quote_request_id', '=', id).execute()
  return rows.map(({ kind }) => kind).sort()
}
const AS_SENT = { at: null, verbs: ['sent'], mails: ['request-arrived', 'request-received'] }
const AS_CONFIRMED = {
  at: '2026-03-02T15:00:00Z',
  verbs: ['address confirmed', 'sent'],
  mails: ['receipt', 'request-arrived', 'request-received'],
}
const standing = async (of = sent) => ({
  at: await confirmedAt(of),
  verbs: await verbsOf(of),
  mails: await mailsOf(of),
})

test('the link shows the address and the number, and nothing else of what was typed', async () => {
  const page = await app.browser().get(confirmPath)
  expect(page.status).toBe(200)
  expect(page.text).toContain('Is this your email address?')
  expect(page.text).toContain('carol@example.com')
  expect(page.text).toContain(sent.number)
  expect(page.text).not.toMatch(/Carol|Fern Lane|0199|gate sticks|Weekday mornings/)
  expect(page.headers['cache-control']).toBe('no-store')
  expect(page.headers['x-robots-tag']).toContain('noindex')
  const spanish = await app.browser().get(`${confirmPath}?language=es`)
  expect(spanish.text).toContain('¿Es este su correo electrónico?')
})

test('opening it, as programs that look mail through do, changes nothing', async () => {
  await app.browser().get(confirmPath)
  await app.browser().head(confirmPath)
  expect(await standing()).toEqual(AS_SENT)
})

test('the button confirms the address, mails what was sent once, and leads to the own page', async () => {
  const homeowner = app.browser()
  const answer = await homeowner.post(confirmPath).type('form').send({})
  expect(answer.status).toBe(303)
  expect(answer.headers.location).toBe(sent.ownPath)
  expect((await homeowner.get(sent.ownPath)).text).toContain('Your email address is confirmed')
  expect(await standing()).toEqual(AS_CONFIRMED)
})

test('pressed again, and many times at once, it is confirmed once', async () => {
  const answers = await Promise.all(Array.from({ length: 8 }, () => press()))
  answers.push(await press())
  expect(answers.map(({ headers }) => headers.location)).toEqual(answers.map(() => sent.ownPath))
  expect(await standing()).toEqual(AS_CONFIRMED)
  const opened = await app.browser().get(confirmPath)
  expect([opened.status, opened.headers.location]).toEqual([303, sent.ownPath])
})

test('when the mail can’t be put on, nothing is confirmed', async () => {
  const { jobs } = app.deps
  const noQueue = () => Promise.reject(new Error('no queue'))
  app.deps.jobs = { sendMail: noQueue, sendText: noQueue }
  try {
    expect((await press()).status).toBe(500)
  } finally {
    app.deps.jobs = jobs
  }
  expect(await standing()).toEqual(AS_SENT)
})

test('whoever sent it is shown no link that confirms, and the links that they have don’t', async () => {
  const page = await app.browser().get(sent.ownPath)
  const [token, own] = [confirmPath, sent.ownPath].map(path => path.split('/').at(-1)!)
  expect(page.text).not.toContain(token)
  for (const path of [`/c/${own}`, `/r/${token}`, `/b/${token}`]) {
    expect((await app.browser().get(path)).status).toBe(404)
    if (path.startsWith('/c/')) expect((await press(path)).status).toBe(404)
  }
  expect(await standing()).toEqual(AS_SENT)
})

test('where a mail server is set, the own page tells that the address is not confirmed, until it is', async () => {
  const told = 'in our email to carol@example.com'
  const read = async (of = sent) => (await app.browser().get(of.ownPath)).text
  expect(await read()).not.toContain('isn’t confirmed')
  const { config } = app.deps
  app.deps.config = { ...config, smtpUrl: 'smtp://mail.example' }
  onTestFinished(() => void Object.assign(app.deps, { config }))
  expect(await read()).toContain(told)
  await press()
  expect(await read()).not.toContain('isn’t confirmed')
  const phoneOnly = await sendRequest(app, { email: '' })
  expect(await read(phoneOnly)).not.toContain('isn’t confirmed')
  expect(await linkOf(phoneOnly, 'email address')).toBeUndefined()
})

test('one address given twice is confirmed for the one request alone', async () => {
  const other = await sendRequest(app)
  await press()
  expect(await confirmedAt(other)).toBeNull()
})

test('a revoked link opens nothing, like an unknown one', async () => {
  await app.db
    .updateTable('link')
    .set({ revoked_at: '2026-03-02T16:00:00Z' })
    .where('quote_request_id', '=', sent.id)
    .where('purpose', '=', 'email address')
    .execute()
  expect((await app.browser().get(confirmPath)).status).toBe(404)
  expect((await press()).status).toBe(404)
  expect(await standing()).toEqual(AS_SENT)
})
