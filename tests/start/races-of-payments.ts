import { sql } from 'kysely'
import { giveBack } from '../../src/payments/pay.ts'
import { findFees, returnCheck } from '../../src/payments/returned-check.ts'
import type { TestApp } from '../helpers/app.ts'
import { billedRequest, paidByCheck, pay } from '../helpers/bills.ts'
import { mine, type Race } from './race.ts'
import type { Sent } from './two-services.ts'

const TODAY = '2026-03-02'

/** A bill of 150.00 that was paid by one check, and what may become of that. */
const byCheck = async (app: TestApp, cookie: string, email: string) => {
  const { number, payment } = await paidByCheck(app, mine(email))
  const path = `/queue/${number}/payments/${payment}`
  const returned = (fee: string): Sent => ({
    ...{ path: `${path}/returned`, cookie },
    form: { [`returned.${payment}.fee`]: fee, [`returned.${payment}.day`]: TODAY },
  })
  return { returned, undo: { path: `${path}/undo`, form: {}, cookie } }
}
const RETURNED = {
  ...{ stages: ['billed'], payments: ['payment -150.00'] },
  ...{ history: ['check returned'], outbox: ['check-returned'] },
}

const PAID = {
  ...{ stages: ['paid'], payments: ['payment 150.00'] },
  ...{ history: ['payment received'], outbox: ['payment-received'] },
}

/** A bill of 150.00 for which 40.00 too much was paid. */
const overpaid = async (app: TestApp, cookie: string, email: string) => {
  const { id, number } = await billedRequest(app, mine(email))
  await pay(app, id, '190.00')
  const back = (overBack: string, overWay: string): Sent => ({
    ...{ path: `/queue/${number}/give-back`, cookie },
    form: { nth: '2', overBack, overDay: TODAY, overWay },
  })
  return { id, back }
}
const BACK = {
  ...{ stages: ['paid'], payments: ['refund -40.00'] },
  ...{ history: ['given back'], outbox: ['given-back'] },
}

/** Two more bills of somebody who has a credit of 40.00. */
const withCredit = async (app: TestApp, cookie: string, email: string) => {
  const { id } = await overpaid(app, cookie, email)
  await giveBack(app.deps, 1, id, { nth: 2, amount: '40.00', day: TODAY, way: 'credit' })
  const bills = [await billedRequest(app, mine(email)), await billedRequest(app, mine(email))]
  // All three are of the same customer.
  await sql`
    update customer set joined_to = (select customer_id from quote_request where id = ${id})
    where id in (select customer_id from quote_request where id = any(${bills.map(bill => bill.id)}::bigint[]))`.execute(
    app.db,
  )
  return bills.map(
    ({ number }): Sent => ({
      ...{ path: `/queue/${number}/payment`, cookie },
      form: { nth: '1', paidDay: TODAY, paidWay: 'credit', tip: '', paid: '40' },
    }),
  )
}

/** Money for a bill that goes back, comes from a credit, or was a check that the bank returned. */
export const PAYMENT_RACES: Race[] = [
  {
    name: 'a check returned for one fee and another',
    forms: async (app, cookie, email) => {
      const { returned } = await byCheck(app, cookie, email)
      return [returned('25'), returned('30')]
    },
    onlyOne: true,
    outcomes: [RETURNED],
  },
  {
    name: 'a check returned and undone',
    forms: async (app, cookie, email) => {
      const { returned, undo } = await byCheck(app, cookie, email)
      return [returned('25'), undo]
    },
    outcomes: [RETURNED, { stages: ['billed'], payments: ['payment -150.00'], history: ['payment undone'] }],
  },
  {
    name: 'letting the fee of a check go while all is paid',
    forms: async (app, cookie, email) => {
      const { id, number, payment: paymentId } = await paidByCheck(app, mine(email))
      await returnCheck(app.deps, 1, id, { paymentId, day: TODAY, fee: '25.00' })
      const [fee] = await findFees(app.db, id)
      return [
        { path: `/queue/${number}/fees/${fee!.id}/waive`, form: {}, cookie },
        {
          ...{ path: `/queue/${number}/payment`, cookie },
          form: { nth: '3', paidDay: TODAY, paidWay: 'cash', tip: '', paid: '175' },
        },
      ]
    },
    // What is left to be given back keeps it from being paid, whichever came first.
    outcomes: [
      {
        ...{ stages: ['billed'], payments: ['payment 175.00'] },
        ...{ history: ['fee waived', 'payment received'], outbox: ['payment-received'] },
      },
    ],
  },
  {
    name: 'reminding of a bill while it is paid',
    forms: async (app, cookie, email) => {
      const { number } = await billedRequest(app, mine(email))
      const form = { nth: '1', paidDay: TODAY, paidWay: 'cash', tip: '', paid: '150' }
      return [
        { path: `/queue/${number}/payment`, form, cookie },
        { path: `/queue/${number}/bill/remind`, form: { before: '0' }, cookie },
      ]
    },
    outcomes: [
      PAID,
      {
        ...{ ...PAID, history: ['bill reminded', 'payment received'] },
        outbox: ['bill-reminder', 'payment-received'],
      },
    ],
  },
  {
    name: 'giving back what was too much, and keeping it as a credit',
    forms: async (app, cookie, email) => {
      const { back } = await overpaid(app, cookie, email)
      return [back('40', 'cash'), back('40', 'credit')]
    },
    onlyOne: true,
    outcomes: [BACK, { ...BACK, history: ['credit kept'] }],
  },
  {
    name: 'paying two bills from one credit',
    forms: withCredit,
    onlyOne: true,
    outcomes: [
      {
        ...{ stages: ['paid', 'billed', 'billed'], payments: ['payment 40.00'] },
        ...{ history: ['payment received'], outbox: ['payment-received'] },
      },
    ],
  },
]
