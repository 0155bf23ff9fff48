import fc from 'fast-check'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { creditBill, makeBill } from '../../src/billing/make-bill.ts'
import { findBills } from '../../src/billing/queries.ts'
import { closeWith } from '../../src/closing/close-with.ts'
import { nextVersion } from '../../src/closing/queries.ts'
import { reopenJob } from '../../src/closing/reopen.ts'
import { giveBack, receivePayment } from '../../src/payments/pay.ts'
import { findPayments } from '../../src/payments/queries.ts'
import { undoPayment } from '../../src/payments/receive.ts'
import { findFees, returnCheck, waiveFee } from '../../src/payments/returned-check.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { bookedToday } from '../helpers/bookings.ts'
import { openBusiness } from '../helpers/people.ts'
import {
  creditOf,
  FEE,
  found,
  known,
  type Life,
  type Moved,
  money,
  owedOf,
  paidOf,
  type Real,
} from './model.ts'

const LIVES = Number(process.env.ROUNDS ?? 6)
const SEED = process.env.ROUNDS ? {} : { seed: 1127 }
const DAY = '2026-03-02'
/** The minimum charge, which is what the job comes to, in cents. */
const PRICE = 15_000

let app: TestApp

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

type Command = fc.AsyncCommand<Life, Real>

/** A step as the model has it, undefined where it is refused; and as the application does it. */
function step(
  name: string,
  predict: (life: Life) => Partial<Life> | undefined,
  act: (id: number, life: Life) => Promise<unknown>,
): Command {
  return {
    toString: () => name,
    check: () => true,
    async run(life, real) {
      const after = predict(life)
      const done = await act(real.id, life).then(
        () => true,
        () => false,
      )
      expect({ name, life, done }).toEqual({ name, life, done: after !== undefined })
      Object.assign(life, after)
      expect({ name, found: await found(app, real) }).toEqual({ name, found: known(life) })
    },
  }
}

const isBilled = (life: Life) => life.bill !== null
const lastOf = (life: Life, is: (one: Moved) => boolean) =>
  life.moved.findLastIndex(one => one.stands && is(one))
const without = (life: Life, at: number, returned = false) => ({
  moved: life.moved.map((one, index) => (index === at ? { ...one, stands: false, returned } : one)),
})
const plus = (life: Life, amount: number, way: Moved['way']) => ({
  moved: [...life.moved, { amount, way, stands: true, returned: false }],
})
const nthOf = async (id: number) => (await findPayments(app.db, id)).length + 1
/** Which payment of the store is the one at a place of the model: undoing rows stand between them. */
const idAt = async (id: number, at: number) =>
  (await findPayments(app.db, id)).filter(({ undoes }) => undoes === null)[at]?.id ?? 0

/** Says how the work went, as far as it went, anew too while there is no bill. */
const working = (outcome: 'part done' | 'done') =>
  step(
    outcome === 'done' ? 'do all of it' : 'do part of it',
    life => (isBilled(life) ? undefined : { work: outcome }),
    async id => {
      const rest = outcome === 'done' ? null : { day: '2026-03-11', hours: '0.1' }
      const took = { used: [], left: [], hours: [], fees: [], shares: [], trips: null, note: '' }
      const went = { outcome, firstDay: DAY, lastDay: DAY, rest, ...took }
      return closeWith(app.deps, 1, id, await nextVersion(app.db, id), went)
    },
  )
const billing = (extra: number) =>
  step(
    `bill with ${extra}`,
    life =>
      isBilled(life) || life.work !== 'done' ? undefined : { bill: PRICE + extra, bills: life.bills + 1 },
    (id, { bills }) => {
      const added = extra === 0 ? [] : [{ description: 'Other', amount: money(extra) }]
      return makeBill(app.deps, 1, id, { before: bills, added, total: null })
    },
  )
const crediting = step(
  'credit memo',
  life => (isBilled(life) ? { bill: null, memos: life.memos + 1 } : undefined),
  async id => {
    const standing = (await findBills(app.db, id)).find(one => one.kind === 'bill' && !one.credited_by)
    return creditBill(app.deps, 1, standing?.number ?? 'B00-0000', 'Wrong')
  },
)
const paying = (amount: number, way: 'check' | 'cash') =>
  step(
    `pay ${amount} by ${way}`,
    life => (isBilled(life) ? plus(life, amount, way) : undefined),
    async id => {
      const paid = { nth: await nthOf(id), amount: money(amount), tip: '1.00', day: DAY, way }
      return receivePayment(app.deps, 1, id, paid)
    },
  )
const payingFromCredit = step(
  'pay from credit',
  life => (isBilled(life) && creditOf(life) >= 2000 ? plus(life, 2000, 'credit') : undefined),
  async id => {
    const paid = { nth: await nthOf(id), amount: '20.00', tip: '0.00', day: DAY, way: 'credit' as const }
    return receivePayment(app.deps, 1, id, paid)
  },
)
const givingBack = (way: 'cash' | 'credit') =>
  step(
    `give back by ${way}`,
    life => (owedOf(life) <= -2000 && paidOf(life) >= 2000 ? plus(life, -2000, way) : undefined),
    async id => giveBack(app.deps, 1, id, { nth: await nthOf(id), amount: '20.00', day: DAY, way }),
  )
const undoing = step(
  'undo the last',
  life => {
    const at = lastOf(life, () => true)
    if (at < 0) return undefined
    const after = { ...life, ...without(life, at) }
    const isBack = life.moved[at]!.amount < 0
    return paidOf(after) < 0 || (isBack && creditOf(after) < 0) ? undefined : without(life, at)
  },
  async (id, life) =>
    undoPayment(
      app.deps,
      1,
      id,
      await idAt(
        id,
        lastOf(life, () => true),
      ),
    ),
)
const isCheck = ({ way, amount }: Moved) => way === 'check' && amount > 0
const returning = step(
  'a check comes back',
  life => {
    const at = lastOf(life, isCheck)
    return at < 0 ? undefined : { ...without(life, at, true), fees: life.fees + 1 }
  },
  async (id, life) => {
    const paymentId = await idAt(id, lastOf(life, isCheck))
    return returnCheck(app.deps, 1, id, { paymentId, day: DAY, fee: money(FEE) })
  },
)
const waiving = step(
  'let a fee go',
  life => ({ fees: Math.max(0, life.fees - 1) }),
  async id => waiveFee(app.deps, 1, id, (await findFees(app.db, id))[0]?.id ?? 0),
)
const reopening: Command = {
  ...step(
    'open the job again',
    () => undefined,
    async id => reopenJob(app.deps, 1, id, await nextVersion(app.db, id)),
  ),
  check: isBilled,
}

test('whatever is billed, corrected, paid, returned, given back and undone, the store holds what the model knows', {
  timeout: 60_000 + LIVES * 10_000,
}, async () => {
  const steps = fc.commands(
    [
      fc.constantFrom(billing(0), billing(-1000), billing(500)),
      fc.constant(crediting),
      fc.constantFrom(working('part done'), working('done')),
      fc.constantFrom(paying(5000, 'check'), paying(PRICE, 'check'), paying(PRICE, 'cash')),
      fc.constantFrom(payingFromCredit, givingBack('cash'), givingBack('credit')),
      fc.constantFrom(undoing, returning, waiving, reopening),
    ],
    { maxCommands: 24, size: 'max' },
  )
  await fc.assert(
    fc.asyncProperty(steps, async commands => {
      const { id } = await bookedToday(app, '0.1')
      const life: Life = { work: 'booked', bill: null, bills: 0, memos: 0, moved: [], fees: 0 }
      await fc.asyncModelRun(
        () => ({ model: life, real: { id } }),
        [billing(0), working('part done'), billing(0), working('done'), billing(0), ...commands],
      )
    }),
    { numRuns: LIVES, endOnFailure: true, ...SEED },
  )
})
