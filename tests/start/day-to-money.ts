import { randomUUID } from 'node:crypto'
import { type Kysely, sql } from 'kysely'
import type { Database } from '../../src/db/schema.ts'
import type { TestApp } from '../helpers/app.ts'
import { bookedToday } from '../helpers/bookings.ts'
import { someOnHand } from '../helpers/on-hand.ts'
import { bookedCompost, bringCompost, someSupplier } from '../helpers/orders.ts'
import { openBusiness } from '../helpers/people.ts'

/** What there is of two jobs: one that is done today, and one for whose day compost is ordered. */
export interface Picture {
  stages: string[]
  orders: string[]
  orderSteps: number
  got: number
  shares: number
  onHand: number
  moves: number
  closings: number
  /** Kind, number in the year, total, and what the lines come to. */
  bills: string[]
  payments: string[]
  history: string[]
  outbox: string[]
}

/** A form that is sent, and what that makes of the picture. */
export interface Step {
  name: string
  path: string | ((db: Kysely<Database>) => Promise<string>)
  form: Record<string, string>
  makes: (before: Picture) => Picture
}

const TODAY = '2026-03-02'
const LATER = '2026-03-12'

/** Sets the business up; gives the owner's cookie, and the steps from a booked day to a bill that is undone. */
export async function prepareDay(app: TestApp): Promise<{ cookie: string; steps: Step[] }> {
  const { owner } = await openBusiness(app)
  const onHand = await someOnHand(app)
  await bringCompost(app)
  const supplier = await someSupplier(app)
  const { number } = await bookedToday(app)
  await bookedCompost(app, LATER, '12', '12')
  const cookie = owner.jar.getCookies({ domain: new URL(app.base).hostname, path: '/' } as never)
  return {
    cookie: cookie.toValueString(),
    steps: [...loadingSteps(supplier, onHand), ...moneySteps(number)],
  }
}

function loadingSteps(supplier: number, onHand: number): Step[] {
  const compost = { nth: '0', day: LATER, of: 'finish', slug: 'compost', pack: 'bulk', delivered: 'yes' }
  const wood = { nth: '0', of: 'finish', slug: 'shredded-wood', pack: 'bag', onHand: String(onHand) }
  return [
    {
      name: 'ordering',
      path: '/orders',
      form: { ...compost, 'order.0.supplier': String(supplier), 'order.0.units': '2' },
      makes: before => ({ ...before, orders: ['ordered'], orderSteps: 1 }),
    },
    {
      name: 'noting that it came',
      path: async db => `/orders/${await lastOf(db, 'supply_order')}`,
      form: { state: 'delivered' },
      makes: before => ({ ...before, orders: ['delivered'], orderSteps: 2, got: 1, shares: 1 }),
    },
    {
      name: 'ticking what is on hand',
      path: `/loads/${TODAY}/got`,
      form: { ...wood, key: randomUUID(), seen: '0', 'line.0.units': '3' },
      makes: before => ({ ...before, got: 2, shares: 2, onHand: 4, moves: 2 }),
    },
    {
      name: 'taking the tick back',
      path: async db => `/loads/${TODAY}/got/${await lastOf(db, 'load_got')}/undo`,
      form: {},
      makes: before => ({ ...before, got: 1, shares: 2, onHand: 7, moves: 3 }),
    },
  ]
}

function moneySteps(number: string): Step[] {
  const becomes = (before: Picture, stage: string, verb: string) => ({
    ...before,
    stages: [stage, 'booked'],
    history: [...before.history, verb].sort(),
  })
  const mails = (before: Picture, kind: string) => [...before.outbox, kind].sort()
  // The minimum charge of 150.00 is what a small job comes to.
  return [
    {
      name: 'closing',
      path: `/days/jobs/${number}/went`,
      form: {
        ...{ version: '1', outcome: 'done', firstDay: TODAY, lastDay: TODAY },
        ...{ 'left.0': '2', 'goes.0': 'on hand', 'hours.0.name': 'Cousin Ed', 'hours.0.work': '3:30' },
      },
      makes: before => ({
        ...becomes(before, 'done', 'job told'),
        ...{ closings: 1, onHand: 9, moves: 4 },
      }),
    },
    {
      name: 'billing',
      path: `/queue/${number}/bill`,
      form: { before: '0', total: '150.00', do: 'make' },
      makes: before => ({
        ...becomes(before, 'billed', 'billed'),
        ...{ bills: ['bill 1 150.00 150.00'], outbox: mails(before, 'bill') },
      }),
    },
    {
      name: 'paying',
      path: `/queue/${number}/payment`,
      form: { nth: '1', paidDay: TODAY, paidWay: 'cash', tip: '', paid: '150' },
      makes: before => ({
        ...becomes(before, 'paid', 'payment received'),
        ...{ payments: ['payment 150.00'], outbox: mails(before, 'payment-received') },
      }),
    },
    {
      name: 'crediting',
      path: '/bills/B26-0001/credit',
      form: { creditReason: 'Wrong depth' },
      makes: before => ({
        ...becomes(before, 'done', 'bill credited'),
        ...{ bills: ['bill 1 150.00 150.00', 'credit memo 1 -150.00 -150.00'] },
        outbox: mails(before, 'bill-credited'),
      }),
    },
  ]
}

// What was rolled back has used up its number.
async function lastOf(db: Kysely<Database>, table: 'supply_order' | 'load_got'): Promise<number> {
  const last = db.selectFrom(table).select(eb => eb.fn.max('id').as('id'))
  return (await last.executeTakeFirstOrThrow()).id
}

/** What the database holds. */
export async function takePicture(db: Kysely<Database>): Promise<Picture> {
  const { rows } = await sql<Picture>`
    select
      (select jsonb_agg(stage order by id) from quote_request) as stages,
      (select coalesce(jsonb_agg(state order by id), '[]') from supply_order) as orders,
      (select count(*)::int from supply_order_step) as "orderSteps",
      (select count(*)::int from load_got where undone_at is null) as got,
      (select count(*)::int from load_share) as shares,
      (select sum(units)::float from on_hand) as "onHand",
      (select count(*)::int from on_hand_move) as moves,
      (select count(*)::int from job_closing) as closings,
      (select coalesce(jsonb_agg(concat_ws(' ', kind, nth, total,
        (select sum(amount) from bill_line where bill_id = bill.id)) order by id), '[]') from bill) as bills,
      (select coalesce(jsonb_agg(concat_ws(' ', kind, amount) order by id), '[]') from payment) as payments,
      (select jsonb_agg(verb order by verb) from history) as history,
      (select coalesce(jsonb_agg(kind order by kind), '[]') from outbox) as outbox`.execute(db)
  return rows[0]!
}
