import type { Transaction } from 'kysely'
import { requireBusiness } from '../business/queries.ts'
import type { OrderState, PackOf, SupplyOrderTable } from '../db/schema/goods.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { dayOf } from '../lib/dates.ts'
import { Decimal } from '../lib/decimal.ts'
import { findLoads } from '../loads/find-load.ts'
import { getWithin, lastGot } from '../loads/get.ts'
import { insertOrderStep } from '../loads/orders-of-day.ts'
import { lockDay } from '../loads/queries.ts'
import { isOf } from '../loads/wanted.ts'
import { lockOrder } from './queries.ts'

/** What is ordered from whom for which day. */
export interface Ordering {
  supplierId: number
  day: string
  of: PackOf
  slug: string
  pack: string
  delivered: boolean
  units: string
}

/**
 * Notes an order that was given, with the jobs of the day that it is for. The same again changes nothing.
 * @throws {Conflict} when another one stands for the same supplier, day and pack, or no job of the day takes it
 * @throws {NotFound} when there is no such supplier
 */
export async function placeOrder(deps: Deps, accountId: number, ordering: Ordering): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const at = deps.now()
    const { supplierId, day, of, slug, pack, delivered, units } = ordering
    await lockDay(trx, day)
    const standing = await trx
      .selectFrom('supply_order')
      .select('units')
      .where('supplier_id', '=', supplierId)
      .where('day', '=', day)
      .where('of', '=', of)
      .where('slug', '=', slug)
      .where('pack', '=', pack)
      .where('state', '!=', 'canceled')
      .executeTakeFirst()
    if (standing && new Decimal(standing.units).eq(units)) return
    if (standing) throw new Conflict('orders.stands', { units: new Decimal(standing.units).toFixed() })
    const supplier = await trx
      .selectFrom('supplier')
      .select('id')
      .where('id', '=', supplierId)
      .where('removed_at', 'is', null)
      .executeTakeFirst()
    if (!supplier) throw new NotFound()
    const jobs = (await loadOf(trx, at, day))?.wanted.filter(one => isOf(one, of, slug)) ?? []
    if (jobs.length === 0) throw new Conflict('loads.not-wanted')
    const { id } = await trx
      .insertInto('supply_order')
      .values({ supplier_id: supplierId, day, of, slug, pack, delivered, units, state: 'ordered' })
      .returning('id')
      .executeTakeFirstOrThrow()
    await trx
      .insertInto('supply_order_job')
      .values(jobs.map(({ jobId }) => ({ supply_order_id: id, quote_request_id: jobId })))
      .execute()
    const step = { supply_order_id: id, state: 'ordered', units, note: '' } as const
    await insertOrderStep(trx, step, { at, by: accountId })
  })
}

/** From which state an order goes to which. */
const AFTER: Record<OrderState, OrderState[]> = {
  ordered: ['confirmed', 'delivered', 'canceled'],
  confirmed: ['delivered', 'canceled'],
  delivered: [],
  canceled: [],
}

/**
 * Notes that an order was confirmed, came (and where it was dropped), or was canceled. What came counts as got for the jobs of
 * its day that still want it; undone on the load list, it is still to come. In that state already, nothing changes.
 * @throws {Conflict} when it is past that
 * @throws {NotFound} when there is no such order
 */
export async function setOrder(
  deps: Deps,
  accountId: number,
  id: number,
  { state, note }: { state: OrderState; note: string },
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const at = deps.now()
    // The day first, as whoever ticks its list locks it so.
    const found = await trx.selectFrom('supply_order').select('day').where('id', '=', id).executeTakeFirst()
    if (!found) throw new NotFound()
    await lockDay(trx, found.day)
    const order = (await lockOrder(trx, id))!
    if (order.state === state) return
    if (!AFTER[order.state].includes(state)) throw new Conflict('orders.past')
    const dropped = state === 'delivered' ? note : ''
    const step = { supply_order_id: id, state, units: order.units, note }
    const stepId = await insertOrderStep(trx, step, { at, by: accountId })
    const gotId =
      state === 'delivered'
        ? await countAsGot(trx, at, accountId, { ...order, key: `order step ${stepId}` })
        : null
    await trx
      .updateTable('supply_order')
      .set({ state, dropped, load_got_id: gotId })
      .where('id', '=', id)
      .execute()
  })
}

async function countAsGot(
  trx: Transaction<Database>,
  at: Temporal.Instant,
  accountId: number,
  order: Pick<SupplyOrderTable, 'day' | 'of' | 'slug' | 'pack' | 'delivered' | 'units'> & {
    key: string
    supplier_id: number
  },
): Promise<number | null> {
  const { key, day, of, slug, pack, delivered, units } = order
  const load = await loadOf(trx, at, day)
  if (!load?.wanted.some(one => isOf(one, of, slug) && one.left.gt(0))) return null
  const { name } = await trx
    .selectFrom('supplier')
    .select('name')
    .where('id', '=', order.supplier_id)
    .executeTakeFirstOrThrow()
  const what = { day, of, slug, pack, delivered, units, boughtAt: name }
  const rest = { key, seen: lastGot(load), onHandId: null, paid: null, ticket: null }
  return getWithin(trx, at, accountId, { ...what, ...rest })
}

async function loadOf(trx: Transaction<Database>, at: Temporal.Instant, day: string) {
  const today = dayOf(at, (await requireBusiness(trx)).time_zone)
  return (await findLoads(trx, at, { today, first: day, last: day })).loads[0]
}
