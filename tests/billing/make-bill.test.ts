import { sql } from 'kysely'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { creditBill, makeBill } from '../../src/billing/make-bill.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { billedRequest, doneRequest, pay } from '../helpers/bills.ts'
import { copyAccepted, standing } from '../helpers/bookings.ts'
import { readPdf } from '../helpers/pdf.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

const WHOLE = { before: 0, added: [], total: null }
const wordsOf = (html: string) => html.replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ')
const send = (path: string, form: object = {}) => owner.post(path).type('form').send(form)
const billsOf = (id: number) =>
  app.db.selectFrom('bill').selectAll().where('quote_request_id', '=', id).orderBy('id').execute()

describe('a bill', () => {
  test('is looked at and made from the page, once; then its homeowner reads it, and it’s under Collect', async () => {
    const { id, number } = await doneRequest(app)
    const quote = await app.db
      .selectFrom('quote')
      .select('total')
      .where('quote_request_id', '=', id)
      .executeTakeFirstOrThrow()
    const page = await owner.get(`/queue/${number}`)
    expect(page.text).toContain(`name="total" value="${quote.total}"`)
    const form = { before: '0', total: quote.total, do: 'make' }
    await send(`/queue/${number}/bill`, form).expect(303)
    await send(`/queue/${number}/bill`, form).expect(303)
    const [bill, ...more] = await billsOf(id)
    expect(more).toEqual([])
    expect(bill).toMatchObject({
      kind: 'bill',
      total: quote.total,
      day: '2026-03-02',
      first_day: '2026-03-30',
    })
    const { stage, verbs, mails } = await standing(app, id)
    expect(stage).toBe('billed')
    expect(verbs.filter(verb => verb === 'billed')).toHaveLength(1)
    expect(mails.filter(kind => kind === 'bill')).toHaveLength(1)
    expect(wordsOf((await owner.get('/queue')).text)).toContain(`$${quote.total} still to pay`)
    const own = await findLinkPath(app.db, app.deps.secretKey, 'own page', id)
    expect((await app.browser().get(own!)).text).toContain(`${own}/bills/${bill!.number}`)
    const read = wordsOf((await app.browser().get(`${own}/bills/${bill!.number}`)).text)
    expect(read).toContain(`Bill ${bill!.number}`)
    expect(read).toContain(`Still to pay $${quote.total}`)
    const spanish = wordsOf((await app.browser().get(`${own}/bills/${bill!.number}?language=es`)).text)
    expect(spanish).toContain(`Cuenta ${bill!.number}`)
    const paper = await app.browser().get(`${own}/bills/${bill!.number}/bill.pdf`).responseType('blob')
    expect((await readPdf(paper.body)).text).toContain(`Bill ${bill!.number}`)
    const other = await doneRequest(app)
    const others = await findLinkPath(app.db, app.deps.secretKey, 'own page', other.id)
    expect((await app.browser().get(`${others}/bills/${bill!.number}`)).status).toBe(404)
  })

  test('has lines of the owner’s own, and isn’t made at another total than was seen', async () => {
    const { id, number } = await doneRequest(app)
    const off = { 'added.0.description': 'Thank you', 'added.0.amount': '-10' }
    const stale = await send(`/queue/${number}/bill`, { before: '0', total: '1.00', do: 'make', ...off })
    expect(stale.status).toBe(422)
    expect(stale.text).toContain('would come to something else')
    expect(await billsOf(id)).toEqual([])
    const looked = await send(`/queue/${number}/bill`, { before: '0', total: '1.00', do: 'look', ...off })
    const total = /name="total" value="([^"]+)"/.exec(looked.text)![1]!
    await send(`/queue/${number}/bill`, { before: '0', total, do: 'make', ...off }).expect(303)
    const [bill] = await billsOf(id)
    const lines = await app.db.selectFrom('bill_line').selectAll().where('bill_id', '=', bill!.id).execute()
    expect(lines.find(({ kind }) => kind === 'other')).toMatchObject({ amount: '-10.00' })
    const quote = await app.db
      .selectFrom('quote')
      .select('total')
      .where('quote_request_id', '=', id)
      .executeTakeFirstOrThrow()
    expect(Number(bill!.total)).toBe(Number(quote.total) - 10)
  })

  test('below nothing, of a job that isn’t done, or when there is one, isn’t made', async () => {
    const done = await doneRequest(app)
    const added = [{ description: 'Off', amount: '-99999.00' }]
    await expect(makeBill(app.deps, 1, done.id, { ...WHOLE, added })).rejects.toThrow('bill.below-zero')
    const billed = await billedRequest(app)
    await expect(makeBill(app.deps, 1, billed.id, { ...WHOLE, before: 1 })).rejects.toThrow('bill.not-now')
    expect(await makeBill(app.deps, 1, billed.id, WHOLE)).toBe(billed.bill)
  })

  test('is never changed, its lines add up, and its request says that it is billed: the database sees to it', async () => {
    const { id, bill } = await billedRequest(app)
    const { id: billId } = await app.db
      .selectFrom('bill')
      .select('id')
      .where('number', '=', bill)
      .executeTakeFirstOrThrow()
    const refused = [
      sql`update bill set total = 1 where id = ${billId}`,
      sql`delete from bill where id = ${billId}`,
      sql`update bill_line set amount = 1 where bill_id = ${billId}`,
      sql`delete from bill_line where bill_id = ${billId}`,
      sql`insert into bill_line (bill_id, position, kind, words, amount) values (${billId}, 99, 'other', '{}', 5)`,
      sql`update quote_request set stage = 'paid' where id = ${id}`,
      sql`update quote_request set stage = 'done' where id = ${id}`,
      sql`insert into payment (quote_request_id, nth, kind, amount, day, way, made_at, made_by)
        select ${id}, 1, 'payment', total, day, 'cash', made_at, 1 from bill where id = ${billId}`,
    ]
    for (const statement of refused)
      await expect(statement.execute(app.db)).rejects.toThrow(/kept|add up|billed or paid/)
  })

  test('is undone by a credit memo once, and made anew; what was paid stays', async () => {
    const { id, number, bill } = await billedRequest(app)
    await pay(app, id, '20.00')
    expect((await send(`/bills/${bill}/credit`, { creditReason: '' })).status).toBe(422)
    await send(`/bills/${bill}/credit`, { creditReason: 'Wrong depth' }).expect(303)
    await send(`/bills/${bill}/credit`, { creditReason: 'Wrong depth' }).expect(303)
    const [first, memo, ...more] = await billsOf(id)
    expect(more).toEqual([])
    expect(memo).toMatchObject({ kind: 'credit memo', total: `-${first!.total}`, undoes: first!.id })
    expect(memo!.number).toMatch(/^C26-\d{4}$/)
    const sums = await sql<{ sum: string }>`
      select position, sum(amount) as sum from bill_line where bill_id in (${first!.id}, ${memo!.id})
      group by position having sum(amount) <> 0`.execute(app.db)
    expect(sums.rows).toEqual([])
    expect((await standing(app, id)).stage).toBe('done')
    const again = await makeBill(app.deps, 1, id, { ...WHOLE, before: 1 })
    expect(again).not.toBe(bill)
    await expect(creditBill(app.deps, 1, memo!.number, 'No')).rejects.toThrow('bill.not-standing')
    const page = wordsOf((await owner.get(`/queue/${number}`)).text)
    expect(page).toContain(`Still to pay: $${(Number(first!.total) - 20).toFixed(2)}`)
    expect(wordsOf((await owner.get(`/bills/${bill}`)).text)).toContain(
      `Credit memo ${memo!.number} cancels this one`,
    )
  })
})

test('200 bills made at once are numbered without a gap', { timeout: 120_000 }, async () => {
  const { id } = await doneRequest(app)
  const ids = await copyAccepted(
    app,
    id,
    Array.from({ length: 200 }, () => '1'),
  )
  const before = await numbersOf()
  const made = await Promise.all(
    ids.map(one => makeBill({ ...app.deps, db: app.store.patientDb }, 1, one, WHOLE)),
  )
  expect(new Set(made).size).toBe(200)
  const after = await numbersOf()
  expect(after).toEqual(Array.from({ length: before.length + 200 }, (_one, index) => index + 1))
})

async function numbersOf(): Promise<number[]> {
  const rows = await app.db
    .selectFrom('bill')
    .select('nth')
    .where('kind', '=', 'bill')
    .where('year', '=', 2026)
    .orderBy('nth')
    .execute()
  return rows.map(({ nth }) => nth)
}
