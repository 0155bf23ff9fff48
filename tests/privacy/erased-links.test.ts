import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { eraseCustomer, eraseRequests } from '../../src/privacy/erase.ts'
import { findStanding } from '../../src/privacy/may-erase.ts'
import { setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { billedRequest, pay } from '../helpers/bills.ts'
import { someSupplier } from '../helpers/orders.ts'
import { type Browser, helperBrowser, officeBrowser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

const WHO = { name: 'Fern Everywhere', phone: '(512) 555-0171', email: 'fern@example.com' }

let app: TestApp
let owner: Browser
let bill: string
let customer: number
let living: number
let numbers: string[]
beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  const billed = await billedRequest(app, WHO)
  bill = billed.bill
  const at = app.deps.now()
  await app.db
    .insertInto('job_trouble')
    .values({
      ...{ quote_request_id: billed.id, kind: 'come back', words: 'Edge the bed', day: '2026-03-01' },
      ...{ key: randomUUID(), photo_id: null, made_at: at.toString(), made_by: 1 },
    })
    .execute()
  const { total } = await app.db.selectFrom('bill').select('total').executeTakeFirstOrThrow()
  await pay(app, billed.id, total)
  const visited = await sendRequest(app, WHO)
  await setVisit(app.deps, 1, visited.id, at)
  await app.db
    .updateTable('visit')
    .set({ starts_at: at.subtract({ hours: 24 }).toString() })
    .execute()
  await app.db.updateTable('outbox').set({ sent_at: at.toString() }).where('kind', '=', 'accepted').execute()
  const order = await app.db
    .insertInto('supply_order')
    .values({
      ...{ supplier_id: await someSupplier(app), day: '2026-03-31', of: 'finish', slug: 'compost', pack: '' },
      ...{ delivered: true, units: '1', state: 'ordered' },
    })
    .returning('id')
    .executeTakeFirstOrThrow()
  await app.db
    .insertInto('supply_order_job')
    .values({ supply_order_id: order.id, quote_request_id: billed.id })
    .execute()
  await app.db
    .updateTable('quote_request')
    .set({ junk_at: at.toString() })
    .where('id', '=', visited.id)
    .execute()
  const of = await app.db
    .selectFrom('quote_request')
    .select(['customer_id', 'number'])
    .orderBy('id')
    .execute()
  customer = of[0]!.customer_id
  numbers = of.map(({ number }) => number)
  for (const { customer_id } of of) {
    const is = await eraseCustomer(app.deps, 1, customer_id)
    expect(['erased', 'before']).toContain(is.is)
  }
  const old = await sendRequest(app, { name: 'Moss Remaining', phone: '(512) 555-0177' })
  numbers.push(old.number)
  living = (
    await app.db
      .selectFrom('quote_request')
      .select('customer_id')
      .where('id', '=', old.id)
      .executeTakeFirstOrThrow()
  ).customer_id
  await app.db
    .transaction()
    .execute(async trx => eraseRequests(trx, await findStanding(trx, [old.id]), [], { kind: 'clock' }, at))
})
afterAll(() => app.close())

/** Where the pages that somebody may see lead to, by the page that leads there. */
async function linksOf(browser: Browser, pages: string[]): Promise<Map<string, string>> {
  const found = new Map<string, string>()
  for (const page of pages) {
    const { status, text } = await browser.get(page)
    if (status !== 200) continue
    for (const [, there] of text.matchAll(/(?:href|action)="(\/[^"#]*)/g))
      if (!there!.startsWith('/assets')) found.set(there!.replaceAll('&amp;', '&'), page)
  }
  return found
}

test('no page leads to a request whose person was erased', async () => {
  const pages = [
    ...['/days', '/days?from=2026-02-23', '/days?from=2026-03-30', '/loads/2026-03-30', '/loads/2026-03-31'],
    ...['/outbox', '/queue', '/queue/search', `/queue?q=${numbers[0]}`, '/orders', '/on-hand', '/customers'],
    ...[
      '/accountant',
      `/bills/${bill}`,
      '/access-log',
      '/rates',
      '/rates/jobs',
      `/customers/${customer}/erase`,
    ],
    ...[`/customers/${living}`, '/queue/maybe-junk', '/queue?show=junk'],
  ]
  for (const browser of [owner, await officeBrowser(app), await helperBrowser(app)]) {
    const seen = (await browser.get('/days?from=2026-03-30')).text
    expect(seen).toContain(numbers[0])
    const links = await linksOf(browser, pages)
    expect(links.size).toBeGreaterThan(10)
    const led = [...links].filter(([there]) => numbers.some(number => there.split(/[/?]/).includes(number)))
    expect(led).toEqual([])
    for (const [there, page] of links)
      expect([page, there, (await browser.get(there)).status === 410]).toEqual([page, there, false])
  }
  for (const page of ['/outbox', '/orders', '/loads/2026-03-31', `/bills/${bill}`])
    expect((await owner.get(page)).text, page).toContain(numbers[0])
  expect((await owner.get(`/customers/${living}`)).text).toContain(numbers[2])
  const gone = await owner.get(`/queue/${numbers[1]}`)
  expect([gone.status, gone.text]).toEqual([410, expect.stringContaining('Bills, if there were any,')])
})
