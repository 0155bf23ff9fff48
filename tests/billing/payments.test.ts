import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { makeBill } from '../../src/billing/make-bill.ts'
import { remindOfBill } from '../../src/billing/remind.ts'
import { findCredit, findOwed } from '../../src/payments/owed.ts'
import { giveBack, receivePayment } from '../../src/payments/pay.ts'
import { findPayments } from '../../src/payments/queries.ts'
import { undoPayment } from '../../src/payments/receive.ts'
import { waiveFee } from '../../src/payments/returned-check.ts'
import { saveFirm } from '../../src/places/firms.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { billedRequest, doneRequest, pay } from '../helpers/bills.ts'
import { standing } from '../helpers/bookings.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

const send = (path: string, form: object = {}) => owner.post(path).type('form').send(form)
const wordsOf = (html: string) => html.replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ')
const pageOf = async (number: string) => wordsOf((await owner.get(`/queue/${number}`)).text)
const stageOf = async (id: number) => (await standing(app, id)).stage
const owedOf = async (id: number) => (await findOwed(app.db, id)).toFixed(2)
const TODAY = { day: '2026-03-02' }
const form = (instead: object) => ({ nth: '1', paidDay: '2026-03-02', paidWay: 'cash', tip: '', ...instead })

// The minimum charge of 150.00 is what a small job comes to.
const TOTAL = '150.00'

describe('payments', () => {
  test('parts, a tip beside, and then it’s paid; the same twice is noted once, with a receipt', async () => {
    const { id, number } = await billedRequest(app)
    expect(await owedOf(id)).toBe(TOTAL)
    await send(`/queue/${number}/payment`, form({ paid: '100' })).expect(303)
    await send(`/queue/${number}/payment`, form({ paid: '100' })).expect(303)
    const stale = await send(`/queue/${number}/payment`, form({ paid: '60' }))
    expect(stale.text).toContain('Something else was noted')
    expect([await owedOf(id), await stageOf(id)]).toEqual(['50.00', 'billed'])
    await send(`/queue/${number}/payment`, form({ nth: '2', paid: '50', tip: '20' })).expect(303)
    expect([await owedOf(id), await stageOf(id)]).toEqual(['0.00', 'paid'])
    const { mails, verbs } = await standing(app, id)
    expect(mails.filter(kind => kind === 'payment-received')).toHaveLength(2)
    expect(verbs.filter(verb => verb === 'payment received')).toHaveLength(2)
    const page = await pageOf(number)
    expect(page).toContain('and a tip of $20.00')
    expect(page).toContain('Paid in full.')
  })

  test('past its day a bill is marked as overdue, in words: in the queue, on the request, and to a firm with terms', async () => {
    const { number, bill } = await billedRequest(app)
    const firms = await doneRequest(app)
    const { customer_id } = await app.db
      .selectFrom('quote_request')
      .select('customer_id')
      .where('id', '=', firms.id)
      .executeTakeFirstOrThrow()
    const firm = { needs_order: false, days_to_pay: 3, bill_name: '', bill_email: '', bill_address: '' }
    const more = { exempt_number: '', exempt_until: null, rules: '', paper_ids: [] }
    await saveFirm(app.db, customer_id, { ...firm, ...more }, { at: app.deps.now(), by: 1 })
    const invoice = await makeBill(app.deps, 1, firms.id, { before: 0, added: [], total: null })
    const read = async (one: string) => wordsOf((await owner.get(`/bills/${one}`)).text)
    try {
      expect(await pageOf(number)).not.toContain('verdue')
      app.setClock('2026-03-05T20:00:00Z')
      expect(await pageOf(firms.number)).not.toContain('verdue')
      app.setClock('2026-03-07T20:00:00Z')
      const queue = wordsOf((await owner.get('/queue')).text)
      for (const late of ['since Mon, Mar 2: 5 days', 'since Thu, Mar 5: 2 days'])
        expect(queue).toContain(`still to pay, overdue ${late}`)
      expect(await pageOf(number)).toContain('Overdue since Mon, Mar 2: 5 days')
      expect(await read(invoice)).toContain('Overdue: this was due by Thursday, March 5')
      // What is due at once says so itself.
      expect(await read(bill)).not.toContain('verdue')
      await pay(app, firms.id, '150.00')
      expect(await read(invoice)).not.toContain('verdue')
    } finally {
      app.setClock('2026-03-02T15:00:00Z')
    }
  })

  test('nothing, a day ahead, or a way that isn’t one are told beside their fields', async () => {
    const { number } = await billedRequest(app)
    const refused = await send(
      `/queue/${number}/payment`,
      form({ paid: '0', paidDay: '2027-01-01', paidWay: 'gold', tip: 'x' }),
    )
    expect(refused.status).toBe(422)
    for (const name of ['paid', 'paidDay', 'paidWay', 'tip'])
      expect(refused.text).toContain(`id="${name}-error"`)
  })

  test('too much is given back, or kept and paid from later; money owed either way is under Collect', async () => {
    const { id, number } = await billedRequest(app)
    await pay(app, id, '200.00')
    expect([await owedOf(id), await stageOf(id)]).toEqual(['-50.00', 'billed'])
    expect(wordsOf((await owner.get('/queue')).text)).toContain('$50.00 to give back or keep as credit')
    const back = { nth: '2', overDay: '2026-03-02', overWay: 'cash', overBack: '60' }
    expect((await send(`/queue/${number}/give-back`, back)).text).toContain('more than was paid too much')
    await send(`/queue/${number}/give-back`, { ...back, overBack: '20' }).expect(303)
    await send(`/queue/${number}/give-back`, { ...back, overBack: '20' }).expect(303)
    const { id: first } = (await findPayments(app.db, id))[0]!
    const undone = await send(`/queue/${number}/payments/${first}/undo`)
    expect(undone.text).toContain('Undo that first')
    const kept = { nth: 3, amount: '30.00', way: 'credit' as const, ...TODAY }
    await giveBack(app.deps, 1, id, kept)
    await giveBack(app.deps, 1, id, kept)
    expect([await owedOf(id), await stageOf(id), await findCredit(app.db, id)]).toEqual([
      '0.00',
      'paid',
      '30.00',
    ])
    const other = await billedRequest(app)
    await joinCustomers(id, other.id)
    expect(await pageOf(other.number)).toContain('Their credit: $30.00')
    const fromCredit = { nth: 1, tip: '0.00', way: 'credit' as const, ...TODAY }
    await expect(receivePayment(app.deps, 1, other.id, { ...fromCredit, amount: '30.01' })).rejects.toThrow(
      'bill.no-credit',
    )
    await receivePayment(app.deps, 1, other.id, { ...fromCredit, amount: '30.00' })
    expect([await owedOf(other.id), await findCredit(app.db, id)]).toEqual(['120.00', '0.00'])
  })

  test('one credit doesn’t pay two bills at once', async () => {
    const first = await billedRequest(app)
    await pay(app, first.id, '180.00')
    await giveBack(app.deps, 1, first.id, { nth: 2, amount: '30.00', way: 'credit', ...TODAY })
    const others = [await billedRequest(app), await billedRequest(app)]
    for (const { id } of others) await joinCustomers(first.id, id)
    const paid = { nth: 1, amount: '30.00', tip: '0.00', way: 'credit' as const, ...TODAY }
    const both = await Promise.allSettled(others.map(({ id }) => receivePayment(app.deps, 1, id, paid)))
    expect(both.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    expect(await findCredit(app.db, first.id)).toBe('0.00')
  })

  test('a check that came back is undone with its fee, its customer marked and told, once', async () => {
    const { id, number } = await billedRequest(app)
    const check = await pay(app, id, TOTAL, { tip: '5.00' })
    expect(await stageOf(id)).toBe('paid')
    const returned = { [`returned.${check}.day`]: '2026-03-02', [`returned.${check}.fee`]: '25' }
    await send(`/queue/${number}/payments/${check}/returned`, returned).expect(303)
    await send(`/queue/${number}/payments/${check}/returned`, returned).expect(303)
    const otherwise = send(`/queue/${number}/payments/${check}/returned`, {
      ...returned,
      [`returned.${check}.fee`]: '30',
    })
    expect((await otherwise.expect(422)).text).toContain('noted that this check came back')
    expect([await owedOf(id), await stageOf(id)]).toEqual(['175.00', 'billed'])
    const { mails, verbs } = await standing(app, id)
    expect(mails.filter(kind => kind === 'check-returned')).toHaveLength(1)
    expect(verbs.filter(verb => verb === 'check returned')).toHaveLength(1)
    const page = await pageOf(number)
    expect(page).toContain('No checks: one of theirs came back.')
    expect(page).toContain('Returned check fee: $25.00')
    await send(`/queue/${number}/checks-again`).expect(303)
    expect(await pageOf(number)).not.toContain('No checks')
    const fee = await app.db
      .selectFrom('fee')
      .select('id')
      .where('quote_request_id', '=', id)
      .executeTakeFirst()
    await waiveFee(app.deps, 1, id, fee!.id)
    await waiveFee(app.deps, 1, id, fee!.id)
    expect(await owedOf(id)).toBe(TOTAL)
    const cash = await pay(app, id, TOTAL, { way: 'cash' })
    const not = await send(`/queue/${number}/payments/${cash}/returned`, {
      [`returned.${cash}.day`]: '2026-03-02',
    })
    expect(not.text).toContain('Only a check')
  })

  test('a check comes back after what was paid too much of it went back', async () => {
    const { id, number } = await billedRequest(app)
    const check = await pay(app, id, '170.00')
    await giveBack(app.deps, 1, id, { nth: 2, amount: '20.00', way: 'cash', ...TODAY })
    expect(await stageOf(id)).toBe('paid')
    await send(`/queue/${number}/payments/${check}/returned`, {
      [`returned.${check}.day`]: '2026-03-02',
      [`returned.${check}.fee`]: '0',
    }).expect(303)
    expect([await owedOf(id), await stageOf(id)]).toEqual(['170.00', 'billed'])
  })

  test('a payment that was noted by mistake is undone, tip and all, and it’s owed again', async () => {
    const { id } = await billedRequest(app)
    const wrong = await pay(app, id, TOTAL, { tip: '9.00' })
    await undoPayment(app.deps, 1, id, wrong)
    await undoPayment(app.deps, 1, id, wrong)
    expect([await owedOf(id), await stageOf(id)]).toEqual([TOTAL, 'billed'])
    const rows = await app.db
      .selectFrom('payment')
      .select(['amount', 'tip'])
      .where('quote_request_id', '=', id)
      .orderBy('nth')
      .execute()
    expect(rows).toEqual([
      { amount: TOTAL, tip: '9.00' },
      { amount: `-${TOTAL}`, tip: '-9.00' },
    ])
  })

  test('a deposit from a page that is from before the bill isn’t noted', async () => {
    const { id, number } = await billedRequest(app)
    const deposit = { nth: '1', depositReceived: '50', depositDay: '2026-03-02', depositWay: 'cash' }
    const stale = await send(`/queue/${number}/deposit`, deposit)
    expect([stale.status, await owedOf(id)]).toEqual([422, TOTAL])
    expect(stale.text).toContain('Something else was noted')
  })

  test('a reminder goes at one press, once, as long as something is owed', async () => {
    const { id, number } = await billedRequest(app)
    await send(`/queue/${number}/bill/remind`, { before: '0' }).expect(303)
    await send(`/queue/${number}/bill/remind`, { before: '0' }).expect(303)
    expect((await standing(app, id)).mails.filter(kind => kind === 'bill-reminder')).toHaveLength(1)
    expect(await pageOf(number)).toContain('Reminded once, last')
    await remindOfBill(app.deps, 1, id, 1)
    await pay(app, id, TOTAL)
    await expect(remindOfBill(app.deps, 1, id, 2)).rejects.toThrow('bill.nothing-owed')
  })
})

/** Both requests are of the same customer. */
async function joinCustomers(one: number, other: number): Promise<void> {
  const { customer_id } = await app.db
    .selectFrom('quote_request')
    .select('customer_id')
    .where('id', '=', one)
    .executeTakeFirstOrThrow()
  await app.db.updateTable('quote_request').set({ customer_id }).where('id', '=', other).execute()
}
