import fc from 'fast-check'
import { callOff } from '../../src/bookings/call-off.ts'
import { cannotDo } from '../../src/bookings/cannot-do.ts'
import type { Stage } from '../../src/db/schema/stages.ts'
import { findPayments } from '../../src/payments/queries.ts'
import { receiveDeposit, undoPayment } from '../../src/payments/receive.ts'
import { settleDeposit } from '../../src/payments/settle.ts'
import { FOLLOWING } from '../../src/requests/stage.ts'
import { OVER } from '../../src/requests/take-up-again.ts'
import { keepMeasurements, setVisit } from '../../src/visits/visit.ts'
import type { TestApp } from '../helpers/app.ts'
import { bedTold, told } from '../helpers/requests.ts'
import { BACK, type MakeStep, PAYMENT } from './model.ts'

const MAY_END: Stage[] = ['new', 'visit set', 'measured']
const PAID = { day: '2026-03-02', way: 'cash' } as const

/** What ends a life. */
export function endSteps(app: TestApp, step: MakeStep) {
  const callingOff = step(
    'call off',
    model => {
      if (model.stage === 'called off') return model
      return FOLLOWING[model.stage].includes('called off')
        ? { ...model, stage: 'called off', day: null }
        : undefined
    },
    ({ id }) => callOff(app.deps, id, ''),
  )
  const turningDown = step(
    'turn down',
    model => {
      if (model.stage === "can't do") return model
      return MAY_END.includes(model.stage) ? { ...model, stage: "can't do" } : undefined
    },
    ({ id }) => cannotDo(app.deps, 1, id, { reason: 'far', words: '' }),
  )
  return fc.constantFrom(callingOff, turningDown)
}

/** What is done before a price. */
export function visitSteps(app: TestApp, step: MakeStep) {
  return fc.constantFrom(
    step(
      'set a visit',
      model =>
        model.stage === 'new' || model.stage === 'visit set' ? { ...model, stage: 'visit set' } : undefined,
      ({ id }) => setVisit(app.deps, 1, id, app.deps.now().add({ hours: 48 })),
    ),
    step(
      'measure',
      model =>
        model.stage === 'visit set' || model.stage === 'measured'
          ? { ...model, stage: 'measured' }
          : undefined,
      ({ id }) => keepMeasurements(app.deps, 1, id, told({ ...bedTold(), toldBed: 0 })),
    ),
  )
}

/** Deposits as they come, are undone, and are settled. */
export function moneySteps(app: TestApp, step: MakeStep) {
  const receiving = step(
    'receive a deposit',
    model => (model.settled ? undefined : { ...model, payments: [...model.payments, true] }),
    async ({ id }) => {
      const nth = (await findPayments(app.db, id)).length + 1
      return receiveDeposit(app.deps, 1, id, { ...PAID, nth, amount: PAYMENT.toFixed(2) })
    },
  )
  const undoing = step(
    'undo the last payment that stands',
    model => {
      const at = model.payments.lastIndexOf(true)
      if (model.settled || at < 0) return undefined
      return { ...model, payments: model.payments.map((stands, index) => stands && index !== at) }
    },
    async ({ id }) => {
      const standing = (await findPayments(app.db, id)).filter(
        ({ undoes, undone_by, kind }) => undoes === null && undone_by === null && kind === 'deposit',
      )
      return undoPayment(app.deps, 1, id, standing.at(-1)?.id ?? 0)
    },
  )
  const settling = step(
    'settle',
    model => {
      if (model.settled) return model
      return OVER.includes(model.stage) && model.payments.includes(true)
        ? { ...model, settled: true }
        : undefined
    },
    ({ id }) => settleDeposit(app.deps, 1, id, { ...PAID, back: BACK.toFixed(2) }),
  )
  return fc.constantFrom(receiving, receiving, undoing, settling)
}
