import { type Kysely, sql, type Transaction } from 'kysely'
import type { OrderState, PackOf } from '../db/schema/goods.ts'
import type { Database } from '../db/schema.ts'

/** An order, its supplier, and the jobs it is for: with the first day that each has now, null where none is booked. */
export interface OrderRow {
  id: number
  day: string
  of: PackOf
  slug: string
  pack: string
  delivered: boolean
  units: string
  state: OrderState
  dropped: string
  /** Whether a load list has it as got. */
  isGot: boolean
  supplier: string
  phone: string
  supplierId: number
  jobs: { id: number; number: string; day: string | null; isErased: boolean }[]
}

const OPEN: OrderState[] = ['ordered', 'confirmed']

function orders(db: Kysely<Database>) {
  return db
    .selectFrom('supply_order')
    .innerJoin('supplier', 'supplier.id', 'supply_order.supplier_id')
    .select(['supply_order.id', 'day', 'of', 'slug', 'pack', 'delivered', 'units', 'state', 'dropped'])
    .select(eb => eb('load_got_id', 'is not', null).$castTo<boolean>().as('isGot'))
    .select(['supplier.name as supplier', 'supplier.phone', 'supplier.id as supplierId'])
    .select(
      sql<OrderRow['jobs']>`coalesce((
        select jsonb_agg(jsonb_build_object('id', quote_request.id, 'number', quote_request.number, 'day', booking.first_day,
            'isErased', quote_request.erased_at is not null)
          order by quote_request.number)
        from supply_order_job join quote_request on quote_request.id = supply_order_job.quote_request_id
          left join booking on booking.quote_request_id = quote_request.id and booking.called_off_at is null
        where supply_order_job.supply_order_id = supply_order.id), '[]')`.as('jobs'),
    )
    .orderBy('day')
    .orderBy('supply_order.id')
}

/** Orders that are still to come, and those of days from one on that came; none that was canceled. */
export async function findOrders(db: Kysely<Database>, fromDay: string): Promise<OrderRow[]> {
  return orders(db)
    .where('state', '!=', 'canceled')
    .where(eb => eb.or([eb('state', 'in', OPEN), eb('day', '>=', fromDay)]))
    .execute()
}

/** Orders that are still to come for any of these jobs. */
export async function findOpenOrdersOf(db: Kysely<Database>, jobIds: number[]): Promise<OrderRow[]> {
  return orders(db)
    .where('state', 'in', OPEN)
    .where(
      'supply_order.id',
      'in',
      db
        .selectFrom('supply_order_job')
        .select('supply_order_id')
        .where('quote_request_id', 'in', [-1, ...jobIds]),
    )
    .execute()
}

/** Locks an order; undefined where there is none. */
export async function lockOrder(trx: Transaction<Database>, id: number) {
  return trx.selectFrom('supply_order').selectAll().where('id', '=', id).forUpdate().executeTakeFirst()
}
