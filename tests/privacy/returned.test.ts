import { unzipSync } from 'fflate'
import { sql } from 'kysely'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { paidByCheck } from '../helpers/bills.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'

let app: TestApp
let owner: Browser
beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

const erase = (customer: number) =>
  owner.post(`/customers/${customer}/erase`).type('form').send({ word: 'erase' }).expect(303)
const note = (customer: number, payment: number, day: string) =>
  owner
    .post(`/customers/${customer}/returned/${payment}`)
    .type('form')
    .send({ [`returned.${payment}`]: day })
const owed = async (id: number) =>
  (await sql<{ owed: string }>`select money_owed(${id}) as owed`.execute(app.db)).rows[0]!.owed

test('a check that comes back after its person was erased is noted, once, and nobody is told', async () => {
  const job = await paidByCheck(app, { name: 'Zephyrine Quill', phone: '(512) 555-0171' })
  await erase(job.customer)
  const page = await owner.get(`/customers/${job.customer}/erase`)
  expect(page.text).toContain(`/customers/${job.customer}/returned/${job.payment}`)
  const mails = (await app.db.selectFrom('outbox').select('id').execute()).length
  for (const day of ['', '2999-01-01', 'soon']) {
    const refused = await note(job.customer, job.payment, day)
    expect([refused.status, refused.text.includes(`id="returned-${job.payment}-error"`)]).toEqual([422, true])
  }
  expect(await owed(job.id)).toBe('0.00')
  const presses = await Promise.all([1, 2].map(() => note(job.customer, job.payment, '2026-03-02')))
  expect(presses.map(({ status }) => status)).toEqual([303, 303])
  expect(await owed(job.id)).toBe(job.total)
  const rows = await app.db
    .selectFrom('payment')
    .select(['amount', 'returned', 'undoes', 'day'])
    .where('quote_request_id', '=', job.id)
    .orderBy('nth')
    .execute()
  expect(rows).toEqual([
    { amount: job.total, returned: false, undoes: null, day: expect.any(String) },
    { amount: `-${job.total}`, returned: true, undoes: job.payment, day: '2026-03-02' },
  ])
  expect((await app.db.selectFrom('outbox').select('id').execute()).length).toBe(mails)
  expect((await owner.get(`/customers/${job.customer}/erase`)).text).not.toContain('/returned/')
  const books = await owner
    .post('/accountant/books.zip')
    .type('form')
    .send({ from: '2026-03-01', to: '2026-03-31' })
    .responseType('blob')
    .expect(200)
  const payments = Buffer.from(unzipSync(books.body)['payments.csv']!).toString()
  const [line, ...others] = payments.split(/\r?\n/).filter(one => one.includes(`-${job.total}`))
  expect([line?.includes('returned'), line?.includes(job.number), others]).toEqual([true, true, []])
})

test('of anybody who isn’t erased it is noted where it was always, and the stage follows the money', async () => {
  const job = await paidByCheck(app, { name: 'Fern Standing', phone: '(512) 555-0172' })
  expect((await note(job.customer, job.payment, '2026-03-02')).status).toBe(404)
  await expect(
    app.db
      .insertInto('payment')
      .values({
        quote_request_id: job.id,
        ...{ nth: 2, kind: 'payment', amount: `-${job.total}`, tip: '0', day: '2026-03-02', way: 'check' },
        ...{ returned: true, undoes: job.payment, made_at: app.deps.now().toString(), made_by: 1 },
      })
      .execute(),
  ).rejects.toThrow('billed or paid')
})
