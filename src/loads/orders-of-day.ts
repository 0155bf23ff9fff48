import type { Kysely, Transaction } from 'kysely'
import type { OrderState, PackOf } from '../db/schema/goods.ts'
import type { Database } from '../db/schema.ts'

interface Made {
  at: Temporal.Instant
  by: number
}

const OPEN: OrderState[] = ['ordered', 'confirmed']

/** The orders for a day that are still to come, with whom to call. */
export async function findOrdersOfDay(db: Kysely<Database>, day: string) {
  return db
    .selectFrom('supply_order')
    .innerJoin('supplier', 'supplier.id', 'supply_order.supplier_id')
    .select(['of', 'slug', 'pack', 'delivered', 'units', 'state', 'supplier.name', 'supplier.phone'])
    .where('day', '=', day)
    .where('state', 'in', OPEN)
    .orderBy('supply_order.id')
    .execute()
}

export type OrderOfDay = Awaited<ReturnType<typeof findOrdersOfDay>>[number]

/** Adds to what became of an order. Gives the id of the step. */
export async function insertOrderStep(
  trx: Transaction<Database>,
  step: { supply_order_id: number; state: OrderState; units: string; note: string },
  { at, by }: Made,
): Promise<number> {
  const { id } = await trx
    .insertInto('supply_order_step')
    .values({ ...step, made_at: at.toString(), made_by: by })
    .returning('id')
    .executeTakeFirstOrThrow()
  return id
}

/** Notes that the order of what was just got has come: the first for the day that fits, where there is one. */
export async function orderCame(
  trx: Transaction<Database>,
  got: { day: string; of: PackOf; slug: string; pack: string; delivered: boolean },
  gotId: number,
  made: Made,
): Promise<void> {
  const order = await trx
    .selectFrom('supply_order')
    .select(['id', 'units'])
    .where('day', '=', got.day)
    .where('of', '=', got.of)
    .where('slug', '=', got.slug)
    .where('pack', '=', got.pack)
    .where('delivered', '=', got.delivered)
    .where('state', 'in', OPEN)
    .orderBy('id')
    .limit(1)
    .forUpdate()
    .executeTakeFirst()
  if (!order) return
  await setState(trx, order, { state: 'delivered', load_got_id: gotId }, made)
}

/** Has an order to come still, as it was before this was got. */
export async function orderDidNotCome(trx: Transaction<Database>, gotId: number, made: Made): Promise<void> {
  const order = await trx
    .selectFrom('supply_order')
    .select(['id', 'units'])
    .where('load_got_id', '=', gotId)
    .forUpdate()
    .executeTakeFirst()
  if (!order) return
  const before = await trx
    .selectFrom('supply_order_step')
    .select('state')
    .where('supply_order_id', '=', order.id)
    .where('state', 'in', OPEN)
    .orderBy('id', 'desc')
    .limit(1)
    .executeTakeFirstOrThrow()
  await setState(trx, order, { state: before.state, load_got_id: null, dropped: '' }, made)
}

async function setState(
  trx: Transaction<Database>,
  { id, units }: { id: number; units: string },
  set: { state: OrderState; load_got_id: number | null; dropped?: string },
  made: Made,
): Promise<void> {
  await trx.updateTable('supply_order').set(set).where('id', '=', id).execute()
  await insertOrderStep(trx, { supply_order_id: id, state: set.state, units, note: '' }, made)
}
