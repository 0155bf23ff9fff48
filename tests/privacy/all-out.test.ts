import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { formsOf } from '../access/forms.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { ALICE, type Browser, openBusiness, provedNow } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  await sendRequest(app)
})
afterAll(() => app.close())
beforeEach(() => provedNow(app))

const OUT = [
  {
    page: '/customers/file',
    address: '/customers/file/customers.csv',
    said: 'saved all customers in a file',
  },
  { page: '/accountant', address: '/accountant/books.zip', said: 'saved the books for the accountant' },
]

const logged = () =>
  app.db.selectFrom('access_log').select(['account_id', 'verb', 'customer_id', 'requests']).execute()

/** What a form on a page sends: where to, and its fields. */
function formOn(html: string, page: string, address: string) {
  const form = formsOf(html, page).find(one => one.address === address)
  expect(form, `a form that posts to ${address}`).toMatchObject({ method: 'POST' })
  return Object.fromEntries(form!.controls.map(({ name, value }) => [name, value]))
}

test.each(OUT)(
  '$address is saved by a button, and noted: who, what, when',
  async ({ page, address, said }) => {
    const before = (await logged()).length
    const fields = formOn((await owner.get(page)).text, page, address)
    expect((await owner.get(address)).status).toBe(404)
    expect((await logged()).length).toBe(before)
    const saved = await owner.post(address).type('form').send(fields)
    expect([saved.status, saved.headers['cache-control']]).toEqual([200, 'no-store'])
    expect(saved.headers['content-disposition']).toContain('attachment')
    const entries = await logged()
    expect(entries.length).toBe(before + 1)
    expect(entries.at(-1)).toMatchObject({ account_id: 1, customer_id: null, requests: [] })
    const log = (await owner.get('/access-log')).text
    expect(log).toContain(`${ALICE.name} ${said}`)
  },
)

test.each(OUT)('$address asks for the password again, and then gives the file', async ({ page, address }) => {
  const before = (await logged()).length
  const fields = formOn((await owner.get(page)).text, page, address)
  await app.db.updateTable('session').set({ proved_at: null }).execute()
  const held = await owner.post(address).type('form').send(fields)
  expect(held.status).toBe(403)
  expect(held.text).toContain('Type your password again')
  expect((await logged()).length).toBe(before)
  const again = formOn(held.text, page, address)
  const saved = await owner
    .post(address)
    .type('form')
    .send({ ...again, 'again.password': ALICE.password })
  expect(saved.status).toBe(200)
  expect(saved.headers['content-disposition']).toContain('attachment')
  expect((await logged()).length).toBe(before + 1)
})

test('the books of days that end before they begin are refused, and nothing is noted', async () => {
  const before = (await logged()).length
  const fields = { from: '2026-03-02', to: '2026-03-01' }
  const refused = await owner.post('/accountant/books.zip').type('form').send(fields)
  expect(refused.status).toBe(422)
  expect(refused.text).toContain('The last day comes before the first.')
  expect(refused.text).toContain('value="2026-03-02"')
  expect((await logged()).length).toBe(before)
})
