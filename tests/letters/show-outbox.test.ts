import { afterEach, beforeEach, expect, test } from 'vitest'
import { confirmAddress } from '../../src/requests/confirm-address.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser

beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})

afterEach(() => app.close())

test('an empty outbox says that nothing waits, and that no mail server is set', async () => {
  const page = await owner.get('/outbox')
  expect(page.status).toBe(200)
  expect(page.text).toContain('Nothing to send.')
  expect(page.text).toContain('No mail server is set')
})

test('without a mail server every message waits with its text, a mail link and a text-message link', async () => {
  const { number, ownPath, id } = await sendRequest(app, { name: 'Carol <Reyes>' })
  expect((await owner.get('/outbox')).text).toContain('hasn’t confirmed this email address')
  await confirmAddress(app.deps, id)
  const { text } = await owner.get('/outbox')
  expect(text).not.toContain('hasn’t confirmed')
  expect(text).toContain(`We have your request ${number}`)
  expect(text).toContain(`http://localhost:8080${ownPath}`)
  expect(text).toContain('Hello Carol &lt;Reyes&gt;,')
  expect(text).toContain('href="mailto:carol@example.com?subject=We%20have%20your%20request%20')
  const words = encodeURIComponent(
    `Fern Beds: We have your request ${number}: http://localhost:8080${ownPath}`,
  )
  expect(text).toContain(`href="sms:5550100199?body=${words}"`)
  const { sent_at, attempts } = await app.db.selectFrom('outbox').selectAll().executeTakeFirstOrThrow()
  expect({ sent_at, attempts }).toEqual({ sent_at: null, attempts: 0 })
})

test('what a mail server refused says so, with its text', async () => {
  const { id } = await sendRequest(app)
  await confirmAddress(app.deps, id)
  await app.db
    .updateTable('outbox')
    .set({ last_fault: 'stopped: EENVELOPE 550', attempts: 1 })
    .where('recipient', '=', 'homeowner')
    .execute()
  const { text } = await owner.get('/outbox')
  expect(text).toContain('The mail server refused it (EENVELOPE 550).')
  expect(text).toContain('Hello Carol Reyes,')
})

test('what a mail server couldn’t take in three days failed, and is written still', async () => {
  await confirmAddress(app.deps, (await sendRequest(app)).id)
  app.deps.config.smtpUrl = 'smtp://127.0.0.1:9'
  expect((await owner.get('/outbox')).text).toContain('Going out <span class="step-count">3')
  app.setClock(app.deps.now().add({ hours: 73 }).toString())
  const { text } = await owner.get('/outbox')
  expect(text).toContain('Not sent within three days')
  expect(text).toContain('Couldn’t be sent <span class="step-count">3')
  expect(text).toContain('Hello Carol Reyes,')
})

test('nobody but the owner sees it', async () => {
  await sendRequest(app)
  const stranger = await app.browser().get('/outbox')
  expect(stranger.status).toBe(303)
  expect(stranger.headers.location).toBe('/sign-in?back=%2Foutbox')
  const helper = await (await helperBrowser(app)).get('/outbox')
  expect(helper.status).toBe(403)
  expect(helper.text).not.toContain('Carol')
})
