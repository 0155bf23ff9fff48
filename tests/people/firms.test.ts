import { afterAll, beforeAll, expect, test } from 'vitest'
import { acceptQuote } from '../../src/bookings/booking.ts'
import { decideCustomers } from '../../src/people/same.ts'
import { exemptBy, isPast } from '../../src/places/firms.ts'
import { leaveVisitOut } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptForm, post as postAs, quotedRequest, standing } from '../helpers/bookings.ts'
import { expectOwnerOnly } from '../helpers/owner-only.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { confirmQuote } from '../helpers/quotes.ts'
import { sendRequest } from '../helpers/requests.ts'
import { chargeTax, linesOf, plain, sendThreeYards } from '../quotes/quoting.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

const post = (path: string, fields = {}) => owner.post(path).type('form').send(fields)

async function customerOf(id: number): Promise<number> {
  const row = await app.db
    .selectFrom('quote_request')
    .select('customer_id')
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  return row.customer_id
}

async function orderOf(id: number) {
  const row = await app.db
    .selectFrom('purchase_order')
    .select('number')
    .where('quote_request_id', '=', id)
    .executeTakeFirst()
  return row?.number ?? null
}

const TERMS = {
  rules: 'Tuesdays only,\nbrown mulch.',
  needsOrder: 'yes',
  daysToPay: '30',
  billName: 'Harbor Management',
  billEmail: 'bills@harbor.example',
  billAddress: '1 Pier Street',
}

test('a firm is asked for its purchase order before it accepts, and refused without; its rules stand where a day is chosen', async () => {
  const { id, number, path } = await quotedRequest(app)
  expect((await post(`/customers/${await customerOf(id)}/firm`, TERMS)).status).toBe(303)
  const page = (await owner.get(`/queue/${number}`)).text
  for (const words of ['Tuesdays only', 'within 30 days', 'bills@harbor.example', 'purchase order number'])
    expect(page).toContain(words)
  expect((await owner.get(`/queue/${number}/quote`)).text).toContain('Tuesdays only')
  expect((await app.browser().get(path)).text).toContain('Due within 30 days of the bill.')
  const form = (await app.browser().get(`${path}/accept?language=es`)).text
  expect(form).toContain('Número de orden de compra')
  expect(form).toContain('Tuesdays only')
  const without = await postAs(app, `${path}/check`, acceptForm())
  expect([without.status, without.text]).toEqual([
    422,
    expect.stringContaining('Give your purchase order number.'),
  ])
  expect((await postAs(app, `${path}/accept`, acceptForm())).status).toBe(422)
  // Past the form as well: it may have become a firm since.
  await expect(acceptQuote(app.deps, id, { revision: 1, typedName: 'Carol Reyes' })).rejects.toThrow(
    'booking.order-missing',
  )
  expect((await standing(app, id)).accepted).toEqual([])
  const given = acceptForm({ orderNumber: 'PO 4711', day: 'none' })
  expect((await postAs(app, `${path}/check`, given)).text).toContain('PO 4711')
  const both = await Promise.all([1, 2].map(() => postAs(app, `${path}/accept`, given)))
  expect(both.map(({ status }) => status)).toEqual([303, 303])
  expect([(await standing(app, id)).accepted.length, await orderOf(id)]).toEqual([1, 'PO 4711'])
  expect((await app.browser().get(path)).text).toContain('Tuesdays only')
  expect((await owner.get(`/queue/${number}`)).text).toContain('purchase order PO 4711')
})

test('the staff may note the number before the price is sent; the form shows it then', async () => {
  const { id, number, path } = await quotedRequest(app)
  await post(`/customers/${await customerOf(id)}/firm`, TERMS)
  for (const _ of [1, 2]) await post(`/queue/${number}/order`, { orderNumber: 'A-1' })
  expect((await standing(app, id)).verbs.filter(verb => verb === 'purchase order').length).toBe(1)
  expect((await app.browser().get(`${path}/accept`)).text).toContain('value="A-1"')
  await acceptQuote(app.deps, id, { revision: 1, typedName: 'Carol Reyes' })
  expect(await orderOf(id)).toBe('A-1')
})

test('nobody else is asked for a number, and what a firm agreed on goes with whoever is joined to it', async () => {
  const { id, path } = await quotedRequest(app, '3', { phone: '(512) 555-0801', email: '' })
  expect((await app.browser().get(`${path}/accept`)).text).not.toContain('orderNumber')
  const firm = await customerOf((await sendRequest(app)).id)
  await post(`/customers/${firm}/firm`, TERMS)
  await decideCustomers(app.deps, { one: await customerOf(id), other: firm, accountId: 1 }, 'same')
  expect((await app.browser().get(`${path}/accept`)).text).toContain('orderNumber')
})

test('what can’t be is said beside its field, and what was typed stays', async () => {
  const customer = await customerOf((await sendRequest(app)).id)
  const wrong = await post(`/customers/${customer}/firm`, {
    daysToPay: '1000',
    billEmail: 'nobody',
    exemptUntil: '2026-02-30',
    rules: 'Kept',
  })
  expect(wrong.status).toBe(422)
  for (const words of ['0 to 365 days', 'look like an email', 'last day as a date', 'number too', '>Kept<'])
    expect(wrong.text).toContain(words)
  expect((await owner.get('/customers/999999/firm')).status).toBe(404)
})

test('only the owner may', async () => {
  const helper = await helperBrowser(app)
  await expectOwnerOnly(app, helper, 'get', '/customers/1/firm')
  await expectOwnerOnly(app, helper, 'post', '/customers/1/firm')
  await expectOwnerOnly(app, helper, 'post', '/queue/26-0001/order')
})

test('a certificate takes the tax off the next price while it is good, and no longer', async () => {
  await chargeTax(app)
  const { id, number } = await sendThreeYards(app)
  const path = `/customers/${await customerOf(id)}/firm`
  const price = async () => (await owner.get(`/queue/${number}/quote`)).text
  await leaveVisitOut(app.deps, 1, id)
  await post(path, { exemptNumber: 'TX-7', exemptUntil: '2026-03-02' })
  expect(await price()).toMatch(/name="exempt"[^>]*value="TX-7"/)
  await post(path, { exemptNumber: 'TX-7', exemptUntil: '2026-03-01' })
  const expired = await price()
  expect(expired).toContain('expired on Mar 1, 2026')
  expect(expired).not.toMatch(/name="exempt"[^>]*value="TX-7"/)
  const refused = await confirmQuote(owner, number, { ...plain, exempt: 'TX-7' })
  expect([refused.status, refused.text]).toEqual([422, expect.stringContaining('has expired')])
  expect((await confirmQuote(owner, number, plain)).status).toBe(303)
  // 8.25 % of three yards at 90.
  expect(await linesOf(app, id)).toEqual(['finish 270.00', 'tax 22.28', '292.28'])
})

test('a certificate counts on its last day, and without one for good', () => {
  const firm = (exempt_until: string | null) => ({
    ...{ needs_order: false, days_to_pay: null, bill_name: '', bill_email: '', bill_address: '' },
    ...{ exempt_number: 'TX-7', exempt_until, rules: '', paper_ids: [] },
  })
  expect(['2026-03-02', '2026-03-01', null].map(until => exemptBy(firm(until), '2026-03-02'))).toEqual([
    'TX-7',
    '',
    'TX-7',
  ])
  expect(['TX-7', 'other'].map(number => isPast(firm('2026-03-01'), number, '2026-03-02'))).toEqual([
    true,
    false,
  ])
})
