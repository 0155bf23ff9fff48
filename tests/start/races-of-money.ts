import type { TestApp } from '../helpers/app.ts'
import { billedRequest, doneRequest } from '../helpers/bills.ts'
import { bookedToday } from '../helpers/bookings.ts'
import { mine, type Race } from './race.ts'
import type { Sent } from './two-services.ts'

const TODAY = '2026-03-02'
const MORE = { 'added.0.description': 'A gate mended', 'added.0.amount': '25' }

const closing = async (app: TestApp, cookie: string, email: string) => {
  const { number } = await bookedToday(app, '0.25', mine(email))
  const asPlanned = { path: `/days/jobs/${number}/close`, form: { version: '1' }, cookie }
  const days = { version: '1', outcome: 'done', firstDay: TODAY, lastDay: TODAY }
  const told = (trips: string) => ({
    path: `/days/jobs/${number}/went`,
    form: { ...days, trips },
    cookie,
  })
  return { asPlanned, told }
}
const CLOSED = { stages: ['done'], closings: 1 }

const billing = async (app: TestApp, cookie: string, email: string) => {
  const { number } = await doneRequest(app, mine(email))
  return (form: object): Sent => ({
    ...{ path: `/queue/${number}/bill`, cookie },
    form: { before: '0', do: 'make', ...form },
  })
}
// The minimum charge of 150.00 is what a small job comes to.
const BILL = 'bill 150.00 150.00'
const MEMO = 'credit memo -150.00 -150.00'

const billed = async (app: TestApp, cookie: string, email: string) => {
  const { number, bill } = await billedRequest(app, mine(email))
  const pay = (paid: string, paidWay: string): Sent => ({
    ...{ path: `/queue/${number}/payment`, cookie },
    form: { nth: '1', paidDay: TODAY, paidWay, tip: '', paid },
  })
  const credit = (creditReason: string): Sent => ({
    ...{ path: `/bills/${bill}/credit`, cookie },
    form: { creditReason },
  })
  return { pay, credit }
}
const PAID = {
  stages: ['paid'],
  payments: ['payment 150.00'],
  history: ['payment received'],
  outbox: ['payment-received'],
}
const CREDITED = {
  stages: ['done'],
  bills: [MEMO],
  history: ['bill credited'],
  outbox: ['bill-credited'],
}

/** How a job went, its bill, and what is paid. */
export const MONEY_RACES: Race[] = [
  {
    name: 'closing as planned, the same form',
    forms: async (app, cookie, email) => [(await closing(app, cookie, email)).asPlanned],
    outcomes: [{ ...CLOSED, history: ['job closed'] }],
  },
  {
    name: 'closing as planned and otherwise',
    forms: async (app, cookie, email) => {
      const { asPlanned, told } = await closing(app, cookie, email)
      return [asPlanned, told('2'), told('3')]
    },
    outcomes: [
      { ...CLOSED, history: ['job closed'] },
      { ...CLOSED, history: ['job told'] },
    ],
  },
  {
    name: 'billing, the same form',
    forms: async (app, cookie, email) => [(await billing(app, cookie, email))({ total: '150.00' })],
    outcomes: [{ stages: ['billed'], bills: [BILL], history: ['billed'], outbox: ['bill'] }],
  },
  {
    name: 'billing with and without something added',
    forms: async (app, cookie, email) => {
      const make = await billing(app, cookie, email)
      return [make({ total: '150.00' }), make({ total: '175.00', ...MORE })]
    },
    outcomes: [BILL, 'bill 175.00 175.00'].map(bill => ({
      ...{ stages: ['billed'], bills: [bill], history: ['billed'], outbox: ['bill'] },
    })),
  },
  {
    name: 'billing and opening the job again',
    forms: async (app, cookie, email) => {
      const make = await billing(app, cookie, email)
      const bill = make({ total: '150.00' })
      const reopen = { path: bill.path.replace('/bill', '/reopen'), form: { version: '2' }, cookie }
      return [bill, reopen]
    },
    outcomes: [
      { stages: ['billed'], bills: [BILL], history: ['billed'], outbox: ['bill'] },
      { stages: ['booked'], closings: 1, history: ['job reopened'] },
    ],
  },
  {
    name: 'paying, the same form',
    forms: async (app, cookie, email) => [(await billed(app, cookie, email)).pay('150', 'cash')],
    outcomes: [PAID],
  },
  {
    name: 'paying all and paying a part',
    forms: async (app, cookie, email) => {
      const { pay } = await billed(app, cookie, email)
      return [pay('150', 'cash'), pay('40', 'check')]
    },
    outcomes: [PAID, { ...PAID, stages: ['billed'], payments: ['payment 40.00'] }],
  },
  {
    name: 'crediting, for one reason and another',
    forms: async (app, cookie, email) => {
      const { credit } = await billed(app, cookie, email)
      return [credit('Wrong depth'), credit('Wrong bed')]
    },
    outcomes: [CREDITED],
  },
  {
    name: 'crediting and paying',
    forms: async (app, cookie, email) => {
      const { credit, pay } = await billed(app, cookie, email)
      return [credit('Wrong depth'), pay('150', 'cash')]
    },
    outcomes: [
      CREDITED,
      {
        ...{ stages: ['done'], bills: [MEMO], payments: ['payment 150.00'] },
        ...{ history: ['bill credited', 'payment received'], outbox: ['bill-credited', 'payment-received'] },
      },
    ],
  },
]
