import { sql } from 'kysely'
import type { TestApp } from '../helpers/app.ts'

export const FEE = 2500

/** Money that changed hands, in cents, and whether it stands: below zero what went back. */
export interface Moved {
  amount: number
  way: 'check' | 'cash' | 'credit'
  stands: boolean
  returned: boolean
}

/** A job from the day of its work on; `bill` is what the one that stands comes to. */
export interface Life {
  work: 'booked' | 'part done' | 'done'
  bill: number | null
  bills: number
  memos: number
  moved: Moved[]
  fees: number
}

export interface Real {
  id: number
}

const STEPS = { booked: 'Load', 'part done': 'Load', done: 'Bill', billed: 'Collect', paid: '' }

const sum = (amounts: number[]) => amounts.reduce((all, amount) => all + amount, 0)
export const paidOf = ({ moved }: Life) =>
  sum(moved.filter(({ stands }) => stands).map(({ amount }) => amount))
export const owedOf = (life: Life) => (life.bill ?? 0) + life.fees * FEE - paidOf(life)
export const creditOf = ({ moved }: Life) =>
  -sum(moved.filter(({ stands, way }) => stands && way === 'credit').map(({ amount }) => amount))
const stageOf = (life: Life) => (life.bill === null ? life.work : owedOf(life) === 0 ? 'paid' : 'billed')
export const money = (cents: number) => (cents / 100).toFixed(2)

/** What the store has to hold of it, read without our own code. */
export async function found(app: TestApp, { id }: Real) {
  const { rows } = await sql<Record<string, string>>`
    with own as (select * from bill where quote_request_id = ${id})
    select stage, (select coalesce(sum(total), 0) from own)::numeric(12,2) as billed,
      (select count(*) from own where kind = 'bill')::int as bills,
      (select count(*) from own where kind = 'credit memo')::int as memos,
      (select coalesce(sum(amount), 0)::numeric(12,2) from payment where quote_request_id = q.id) as paid,
      (select coalesce(sum(amount), 0)::numeric(12,2) from fee where quote_request_id = q.id) as fees,
      (select coalesce(-sum(amount), 0)::numeric(12,2) from payment
        where quote_request_id = q.id and way = 'credit') as credit,
      (select count(*) from own where total <> (select coalesce(sum(amount), 0) from bill_line
        where bill_id = own.id))::int as wrong,
      (select count(*) from bill_year where last <> (select count(*) from bill
        where bill.kind = bill_year.kind and bill.year = bill_year.year))::int as gaps,
      coalesce(step, '') as step
    from quote_request q where id = ${id}`.execute(app.db)
  return rows[0]!
}

export function known(life: Life) {
  const stage = stageOf(life)
  return {
    ...{ stage, billed: money(life.bill ?? 0), bills: life.bills, memos: life.memos },
    ...{ paid: money(paidOf(life)), fees: money(life.fees * FEE), credit: money(creditOf(life)) },
    ...{ wrong: 0, gaps: 0, step: STEPS[stage] },
  }
}
