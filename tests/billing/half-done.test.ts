import { type KyselyPlugin, sql } from 'kysely'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { creditBill, makeBill } from '../../src/billing/make-bill.ts'
import { remindOfBill } from '../../src/billing/remind.ts'
import type { Deps } from '../../src/deps.ts'
import { giveBack, receivePayment } from '../../src/payments/pay.ts'
import { returnCheck } from '../../src/payments/returned-check.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { billedRequest, doneRequest, pay } from '../helpers/bills.ts'
import { openBusiness } from '../helpers/people.ts'

let app: TestApp

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

/** The application as it ends before so many statements were sent, as when its process is killed there. */
function dyingAt(statement: number): { deps: Deps; hasDied: () => boolean } {
  let sent = 0
  const dies: KyselyPlugin = {
    transformQuery: ({ node }) => {
      sent += 1
      if (sent === statement) throw new Error('killed')
      return node
    },
    transformResult: async ({ result }) => result,
  }
  return { deps: { ...app.deps, db: app.db.withPlugin(dies) }, hasDied: () => sent >= statement }
}

/** All that money changes, as one text. */
async function state(): Promise<string> {
  const tables = ['bill', 'bill_year', 'bill_line', 'bill_line_share', 'payment', 'fee', 'history', 'outbox']
  const rows = await Promise.all(
    [...tables, 'customer', 'quote_request'].map(table =>
      sql`select one::text from ${sql.table(table)} as one order by 1`.execute(app.db),
    ),
  )
  return JSON.stringify(rows.map(one => one.rows))
}

const paid = { nth: 1, amount: '999.00', tip: '1.00', day: '2026-03-02', way: 'check' as const }

test.each<[verb: string, begin: () => Promise<(deps: Deps) => Promise<unknown>>]>([
  [
    'making a bill',
    async () => {
      const { id } = await doneRequest(app)
      return deps => makeBill(deps, 1, id, { before: 0, added: [], total: null })
    },
  ],
  [
    'undoing one',
    async () => {
      const { bill } = await billedRequest(app)
      return deps => creditBill(deps, 1, bill, 'Wrong')
    },
  ],
  [
    'noting a payment',
    async () => {
      const { id } = await billedRequest(app)
      return deps => receivePayment(deps, 1, id, paid)
    },
  ],
  [
    'a check that came back',
    async () => {
      const { id } = await billedRequest(app)
      const paymentId = await pay(app, id, '150.00')
      return deps => returnCheck(deps, 1, id, { paymentId, day: '2026-03-02', fee: '25.00' })
    },
  ],
  [
    'giving back',
    async () => {
      const { id } = await billedRequest(app)
      await pay(app, id, '200.00')
      return deps => giveBack(deps, 1, id, { ...paid, nth: 2, amount: '50.00', way: 'credit' })
    },
  ],
  [
    'a reminder',
    async () => {
      const { id } = await billedRequest(app)
      return deps => remindOfBill(deps, 1, id, 0)
    },
  ],
])('%s that is killed between any two statements leaves nothing half done', async (_verb, begin) => {
  const act = await begin()
  const before = await state()
  let statement = 1
  for (; ; statement++) {
    const { deps, hasDied } = dyingAt(statement)
    const done = await act(deps).then(
      () => true,
      error => (error as Error).message !== 'killed',
    )
    if (!hasDied()) break
    expect({ statement, done, same: (await state()) === before }).toEqual({
      statement,
      done: false,
      same: true,
    })
  }
  expect(statement).toBeGreaterThan(5)
  expect(await state()).not.toBe(before)
})
