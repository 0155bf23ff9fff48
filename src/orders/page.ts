import type { Business } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { dayInWords, shortDate } from '../language/dates-in-words.ts'
import { telephone } from '../lib/contact-links.ts'
import { addDays, dayOf } from '../lib/dates.ts'
import { Decimal } from '../lib/decimal.ts'
import { findLoads } from '../loads/find-load.ts'
import { packsInWords } from '../loads/packs-in-words.ts'
import { nameOfThing } from '../on-hand/pack-words.ts'
import { findOrders, type OrderRow } from './queries.ts'
import { findSuppliers, type Supplier } from './suppliers.ts'
import { type Misfit, misfits, packOfLine, type ToOrder, toOrder } from './to-order.ts'

/** So many days ahead it is looked what has to be ordered. */
const AHEAD = 28

const STATES = { ordered: 'ordered', confirmed: 'confirmed', delivered: 'came', canceled: 'canceled' }

/** What is to be ordered for the next days, the orders that stand, and which no longer fit. */
export async function findOrdering(deps: Deps, business: Business, ahead = AHEAD) {
  const today = dayOf(deps.now(), business.time_zone)
  const range = { today, first: today, last: addDays(today, ahead) }
  const { table, loads } = await findLoads(deps.db, deps.now(), range)
  const orders = await findOrders(deps.db, today)
  const suppliers = await findSuppliers(deps.db)
  return {
    ...{ today, table, suppliers, orders },
    due: toOrder(loads, suppliers, orders),
    misfits: misfits(loads, orders),
  }
}

/** The page Orders, in words. */
export async function viewOrders(deps: Deps, business: Business) {
  const { today, table, suppliers, orders, due, misfits } = await findOrdering(deps, business)
  return {
    due: due.map((one, nth) => viewDue(one, nth, table, today)),
    misfits: misfits.map(one => misfitInWords(one, table)),
    open: orders.filter(({ state }) => state !== 'delivered').map(order => viewOrder(order, table)),
    came: orders.filter(({ state }) => state === 'delivered').map(order => viewOrder(order, table)),
    suppliers: suppliers.map(viewSupplier),
    choices: suppliers.map(({ id, name }) => ({ value: String(id), label: name })),
  }
}

export type OrdersPage = Awaited<ReturnType<typeof viewOrders>>

function viewDue({ day, line, supplier, orderBy }: ToOrder, nth: number, table: RateTable, today: string) {
  const named = packOfLine(line)
  return {
    nth,
    ...named,
    day,
    delivered: line.delivered,
    what: `${packsInWords(line.units, named, table, 'en')}, ${nameOfThing(named, table, 'en')}`,
    units: line.units.toFixed(),
    brought: line.delivered ? 'brought' : 'picked up',
    forDay: dayInWords(day, 'en'),
    by: orderBy < today ? `was due ${shortDate(orderBy)}` : `by ${shortDate(orderBy)}`,
    isLate: orderBy <= today,
    supplier: supplier ? viewSupplier(supplier) : null,
    supplierId: supplier ? String(supplier.id) : '',
    priceToday: line.of === 'finish' ? `/rates/today/${line.slug}` : null,
  }
}

function viewSupplier({ id, name, phone, cutoff, hours, leadDays }: Supplier) {
  const facts = [
    cutoff && `call ${cutoff}`,
    hours && `open ${hours}`,
    leadDays > 0 && `${leadDays} business ${leadDays === 1 ? 'day' : 'days'} ahead`,
  ]
  return { id, name, phone: telephone(phone), facts: facts.filter(fact => fact !== '' && fact !== false) }
}

function viewOrder(order: OrderRow, table: RateTable) {
  return {
    id: order.id,
    what: orderedWhat(order, table),
    supplier: order.supplier,
    phone: telephone(order.phone),
    forDay: dayInWords(order.day, 'en'),
    day: order.day,
    state: STATES[order.state],
    mayConfirm: order.state === 'ordered',
    dropped: order.dropped,
    isGot: order.isGot,
    jobs: order.jobs.map(({ number, isErased }) => ({ number, isErased })),
  }
}

function orderedWhat(order: OrderRow, table: RateTable): string {
  const units = new Decimal(order.units)
  return `${packsInWords(units, order, table, 'en')}, ${nameOfThing(order, table, 'en')}`
}

/** 'Smith’s: 6 cubic yards, Compost, for Tuesday, March 3. 26-0004 is now on Thu, Mar 5.' */
function misfitInWords({ order, moved, takes }: Misfit, table: RateTable): { words: string; day: string } {
  const jobs = moved.map(({ number, day }) =>
    day === null ? `${number} isn’t booked any more.` : `${number} is now on ${shortDate(day)}.`,
  )
  const now = takes ? [`The day takes ${packsInWords(takes.units, packOfLine(takes), table, 'en')} now.`] : []
  return { words: [orderInWords(order, table), ...jobs, ...now].join(' '), day: order.day }
}

/** An order as it is named beside a job: 'Smith’s, (555) 010-0111: 6 cubic yards, Compost, for Tuesday, March 3 (ordered).' */
export function orderInWords(order: OrderRow, table: RateTable): string {
  const who = [order.supplier, order.phone].filter(Boolean).join(', ')
  return `${who}: ${orderedWhat(order, table)}, for ${dayInWords(order.day, 'en')} (${STATES[order.state]}).`
}

const SOON = 3
const AHEAD_ON_DAYS = 14

/** What of it is to be done in the next days: '2 things to order, the first by Mon, Mar 2.'; '' where nothing is. */
export async function orderingInWords(deps: Deps, business: Business): Promise<string> {
  const { today, due, misfits } = await findOrdering(deps, business, AHEAD_ON_DAYS)
  const soon = due.filter(({ orderBy }) => orderBy <= addDays(today, SOON))
  const things = soon.length === 1 ? '1 thing' : `${soon.length} things`
  const calls = misfits.length === 1 ? '1 order no longer fits' : `${misfits.length} orders no longer fit`
  return [
    soon.length > 0 && `${things} to order, the first by ${shortDate(soon[0]!.orderBy)}.`,
    misfits.length > 0 && `${calls}: call.`,
  ]
    .filter(Boolean)
    .join(' ')
}
