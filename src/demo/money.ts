import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { dayOf } from '../lib/dates.ts'
import { findOwed } from '../payments/owed.ts'
import { receivePayment } from '../payments/pay.ts'
import { findPayments } from '../payments/queries.ts'
import { returnCheck } from '../payments/returned-check.ts'
import type { Happening } from './stories.ts'

/** Pays so much of a bill, or all that is owed. */
export async function pay(
  deps: Deps,
  ownerId: number,
  id: number,
  { amount, way, tip = '0.00' }: Happening & { verb: 'pay' },
): Promise<void> {
  const nth = (await findPayments(deps.db, id)).length + 1
  const all = (await findOwed(deps.db, id)).toFixed(2)
  const paid = { nth, amount: amount === 'all' ? all : amount, tip, day: await today(deps), way }
  await receivePayment(deps, ownerId, id, paid)
}

/** The bank returns the check that was given last. */
export async function returnLast(
  deps: Deps,
  ownerId: number,
  id: number,
  { fee }: Happening & { verb: 'the check comes back' },
): Promise<void> {
  const last = (await findPayments(deps.db, id)).at(-1)!
  await returnCheck(deps, ownerId, id, { paymentId: last.id, day: await today(deps), fee })
}

async function today({ db, now }: Deps): Promise<string> {
  return dayOf(now(), (await requireBusiness(db)).time_zone)
}
