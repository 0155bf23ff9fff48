import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { removeGateway, setGateway } from '../../src/letters/change-gateway.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
beforeEach(() => removeGateway(app.deps))
afterAll(() => app.close())

const useGateway = () => setGateway(app.deps, 'https://texts.example.com/send')

const texted = (id: number) =>
  app.db
    .selectFrom('outbox')
    .select(['way', 'sent_at'])
    .where('quote_request_id', '=', id)
    .where('kind', '=', 'own-link')
    .execute()

test('without a gateway the page opens a text message of one’s own, to whatever phone was given', async () => {
  const { ownPath, number } = await sendRequest(app)
  const link = `http://localhost:8080${ownPath}`
  const words = encodeURIComponent(`Fern Beds: Your request ${number}: ${link}`)
  const page = await app.browser().get(ownPath)
  expect(page.text).toContain(`href="sms:5550100199?body=${words}"`)
  expect(page.text).toContain(`value="${link}"`)
  const { ownPath: mailed } = await sendRequest(app, { phone: '' })
  expect((await app.browser().get(mailed)).text).toContain('href="sms:?body=Fern%20Beds')
})

test('with one the link is texted; pressed again while it is on its way, or too often, nothing more', async () => {
  await useGateway()
  const { ownPath, id } = await sendRequest(app)
  const browser = app.browser()
  expect((await browser.get(ownPath)).text).not.toContain('href="sms:')
  const press = async () => {
    const answer = await browser.post(`${ownPath}/text`).type('form').send({})
    expect(answer.headers.location).toBe(ownPath)
  }
  await press()
  await press()
  expect(await texted(id)).toEqual([{ way: 'text', sent_at: null }])
  for (let n = 0; n < 4; n += 1) {
    await app.db
      .updateTable('outbox')
      .set({ sent_at: app.deps.now().toString() })
      .where('kind', '=', 'own-link')
      .execute()
    await press()
  }
  expect(await texted(id)).toHaveLength(3)
})

test('whoever gave a mail address alone is asked for a phone, in both languages', async () => {
  await useGateway()
  const { ownPath, id } = await sendRequest(app, { phone: '' })
  const browser = app.browser()
  const send = (textPhone: string, path = ownPath) =>
    browser.post(`${path}/text`).type('form').send({ textPhone })
  const refused = await send('call me')
  expect(refused.status).toBe(422)
  expect(refused.text).toContain('id="textPhone-error"')
  expect(refused.text).toContain('value="call me"')
  expect((await send('')).text).toContain('Give a phone number that gets texts.')
  await browser.get(`${ownPath}?language=es`)
  expect((await send('')).text).toContain('Escriba un teléfono que reciba mensajes de texto.')
  expect(await texted(id)).toEqual([])
  expect((await send('614 555 0150')).status).toBe(303)
  expect(await texted(id)).toHaveLength(1)
  expect((await browser.get(ownPath)).text).toContain('614 555 0150')
})
