import { findPayments } from '../../src/payments/queries.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import type { TestApp } from '../helpers/app.ts'
import { acceptedRequest, depositRequest } from '../helpers/bookings.ts'
import { mine, type Race } from './race.ts'
import type { Sent } from './two-services.ts'

const TODAY = '2026-03-02'

/** What may be done about the deposit of a job that is accepted; $20.00 of it came already where that is `held`. */
const deposit = async (app: TestApp, cookie: string, email: string, held: boolean) => {
  const job = held ? await depositRequest(app, mine(email)) : await acceptedRequest(app, '0.25', mine(email))
  const { id, number, path } = job
  const staff = (does: string, form: Record<string, string>): Sent => ({
    ...{ path: `/queue/${number}/${does}`, cookie },
    form,
  })
  const note = (depositReceived: string, depositWay: string) =>
    staff('deposit', { nth: held ? '2' : '1', depositReceived, depositDay: TODAY, depositWay })
  const settle = (back: string, backWay: string) => staff('deposit/settle', { back, backDay: TODAY, backWay })
  const cancel = (fate: string) =>
    staff('cancel', { whyCanceled: 'The truck broke', fate, fateDay: TODAY, fateWay: 'check' })
  const own = await findLinkPath(app.db, app.deps.secretKey, 'own page', id)
  const byHomeowner = { path: `${own}/call-off`, form: { reason: 'Moving' } }
  const day: Sent = { path: `${path}/day`, form: { day: '2026-03-05' } }
  const [first] = await findPayments(app.db, id)
  const undo = staff(`payments/${first?.id ?? 0}/undo`, {})
  return { id, note, settle, cancel, byHomeowner, day, undo }
}

/** The same, after its homeowner canceled. */
const ended = async (app: TestApp, cookie: string, email: string) => {
  const forms = await deposit(app, cookie, email, true)
  const canceled = await app.server.inject({
    ...{ method: 'POST', url: forms.byHomeowner.path, payload: 'reason=Moving' },
    headers: {
      'content-type': 'application/x-www-form-urlencoded',
      origin: app.deps.config.publicUrl,
    },
  })
  if (canceled.statusCode !== 303) throw new Error(`Canceling answered ${canceled.statusCode}`)
  return forms
}

const NOTED = {
  ...{ stages: ['quoted'], payments: ['deposit 20.00'] },
  ...{ history: ['deposit received'], outbox: ['deposit-received'] },
}
const CANCELED = { stages: ['called off'], history: ['called off'], outbox: ['canceled'] }
const BY_HOMEOWNER = { ...CANCELED, outbox: ['called-off-staff', 'canceled'] }
const KEPT = { stages: ['called off'], settled: ['kept 20.00 back 0.00'], history: ['deposit settled'] }
const BACK = {
  ...{ stages: ['called off'], settled: ['kept 0.00 back 20.00'], payments: ['refund -20.00'] },
  ...{ history: ['deposit settled'], outbox: ['given-back'] },
}
const CANCELED_BACK = {
  ...{ ...BACK, history: ['called off', 'deposit settled'] },
  outbox: ['canceled', 'given-back'],
}

/** A deposit as it is noted, undone, kept and given back, and canceling meanwhile. */
export const DEPOSIT_RACES: Race[] = [
  {
    name: 'noting a deposit, the same form',
    forms: async (app, cookie, email) => [(await deposit(app, cookie, email, false)).note('20', 'cash')],
    outcomes: [NOTED],
  },
  {
    name: 'noting a deposit in cash and another by check',
    forms: async (app, cookie, email) => {
      const { note } = await deposit(app, cookie, email, false)
      return [note('20', 'cash'), note('35', 'check')]
    },
    onlyOne: true,
    outcomes: [NOTED, { ...NOTED, payments: ['deposit 35.00'] }],
  },
  {
    name: 'noting a deposit and choosing a day',
    forms: async (app, cookie, email) => {
      const { note, day } = await deposit(app, cookie, email, false)
      return [note('20', 'cash'), day]
    },
    outcomes: [
      {
        ...{ ...NOTED, stages: ['booked'], booked: 1, history: ['day booked', 'deposit received'] },
        outbox: ['day-booked', 'day-booked-staff', 'deposit-received'],
      },
    ],
  },
  {
    name: 'noting a deposit and canceling, by the staff and by the homeowner',
    forms: async (app, cookie, email) => {
      const { note, cancel, byHomeowner } = await deposit(app, cookie, email, false)
      return [note('20', 'cash'), cancel('later'), byHomeowner]
    },
    outcomes: [CANCELED, BY_HOMEOWNER].map(by => ({
      ...{ ...by, payments: ['deposit 20.00'], history: ['called off', 'deposit received'] },
      outbox: [...by.outbox, 'deposit-received'],
    })),
  },
  {
    name: 'undoing a deposit, the same form',
    forms: async (app, cookie, email) => [(await deposit(app, cookie, email, true)).undo],
    outcomes: [{ stages: ['quoted'], payments: ['deposit -20.00'], history: ['payment undone'] }],
  },
  {
    name: 'undoing a deposit and noting more of it',
    forms: async (app, cookie, email) => {
      const { undo, note } = await deposit(app, cookie, email, true)
      return [undo, note('30', 'cash')]
    },
    // Whoever notes it after the other is told that something else was noted.
    outcomes: [
      { stages: ['quoted'], payments: ['deposit -20.00'], history: ['payment undone'] },
      {
        ...{ ...NOTED, payments: ['deposit 30.00', 'deposit -20.00'] },
        history: ['deposit received', 'payment undone'],
      },
    ],
  },
  {
    name: 'giving a deposit back, the same form',
    forms: async (app, cookie, email) => [(await ended(app, cookie, email)).settle('20', 'cash')],
    outcomes: [BACK],
  },
  {
    name: 'giving a deposit back and keeping it',
    forms: async (app, cookie, email) => {
      const { settle } = await ended(app, cookie, email)
      return [settle('20', 'cash'), settle('0', 'cash')]
    },
    onlyOne: true,
    outcomes: [BACK, KEPT],
  },
  {
    name: 'giving a deposit back in cash and by check',
    forms: async (app, cookie, email) => {
      const { settle } = await ended(app, cookie, email)
      return [settle('20', 'cash'), settle('20', 'check')]
    },
    onlyOne: true,
    outcomes: [BACK],
  },
  {
    name: 'giving a deposit back and undoing it',
    forms: async (app, cookie, email) => {
      const { settle, undo } = await ended(app, cookie, email)
      return [settle('20', 'cash'), undo]
    },
    onlyOne: true,
    outcomes: [BACK, { stages: ['called off'], payments: ['deposit -20.00'], history: ['payment undone'] }],
  },
  {
    name: 'canceling with the deposit kept and given back',
    forms: async (app, cookie, email) => {
      const { cancel } = await deposit(app, cookie, email, true)
      return [cancel('kept'), cancel('back')]
    },
    onlyOne: true,
    outcomes: [
      CANCELED_BACK,
      {
        ...{ ...CANCELED, settled: ['kept 20.00 back 0.00'] },
        history: ['called off', 'deposit settled'],
      },
    ],
  },
  {
    name: 'canceling with the deposit given back while the homeowner cancels',
    forms: async (app, cookie, email) => {
      const { cancel, byHomeowner } = await deposit(app, cookie, email, true)
      return [cancel('back'), byHomeowner]
    },
    // What the staff gave back is noted, whoever was first to cancel.
    outcomes: [CANCELED_BACK, { ...CANCELED_BACK, outbox: ['called-off-staff', 'canceled', 'given-back'] }],
  },
  {
    name: 'canceling with the deposit given back while more of it is noted',
    forms: async (app, cookie, email) => {
      const { cancel, note } = await deposit(app, cookie, email, true)
      return [cancel('back'), note('30', 'cash')]
    },
    // All that is held goes back; what comes after it is settled is refused.
    outcomes: [
      CANCELED_BACK,
      {
        ...{ ...CANCELED_BACK, payments: ['deposit 30.00', 'refund -50.00'] },
        ...{ settled: ['kept 0.00 back 50.00'], outbox: ['canceled', 'deposit-received', 'given-back'] },
        history: ['called off', 'deposit received', 'deposit settled'],
      },
    ],
  },
]
