import { businessDayBefore } from '../lib/business-days.ts'
import type { DayLoad, LoadLine } from '../loads/find-load.ts'
import type { OrderRow } from './queries.ts'
import { type Supplier, soldAs, USUAL_LEAD } from './suppliers.ts'

/** A line of a work day that is to be ordered: from whom, null where nobody is listed for it, and by when. */
export interface ToOrder {
  day: string
  line: LoadLine
  supplier: Supplier | null
  orderBy: string
}

/** An order that no longer fits its day: jobs that moved away or ended, or another amount than the day takes now. */
export interface Misfit {
  order: OrderRow
  moved: OrderRow['jobs']
  /** What the day takes now; null where that is as ordered, or nothing is left to get. */
  takes: LoadLine | null
}

const OPEN = ['ordered', 'confirmed']

/**
 * What must be ordered for these days and isn't: what is brought, and what is picked up at a supplier who keeps it for
 * you. By the last business day that is as many before the work as the supplier needs.
 */
export function toOrder(loads: DayLoad[], suppliers: Supplier[], orders: OrderRow[]): ToOrder[] {
  const all = loads.flatMap(({ day, lines }) =>
    lines.flatMap((line): ToOrder[] => {
      const supplier = suppliers.find(({ sells }) => sells.includes(soldAs(packOfLine(line)))) ?? null
      const lead = supplier?.leadDays ?? USUAL_LEAD
      if (!line.delivered && !supplier?.keeps) return []
      if (orders.some(order => isFor(order, day, line))) return []
      return [{ day, line, supplier, orderBy: businessDayBefore(day, lead) }]
    }),
  )
  return all.sort((a, b) => (a.orderBy < b.orderBy ? -1 : a.orderBy > b.orderBy ? 1 : 0))
}

/** The open orders that no longer fit their days. */
export function misfits(loads: DayLoad[], orders: OrderRow[]): Misfit[] {
  return orders
    .filter(({ state }) => OPEN.includes(state))
    .flatMap(order => {
      const moved = movedAway(order)
      const lines = loads.find(({ day }) => day === order.day)?.lines ?? []
      const line = lines.find(one => isFor(order, order.day, one))
      const takes = line && !line.units.eq(order.units) ? line : null
      return moved.length > 0 || takes ? [{ order, moved, takes }] : []
    })
}

/** The jobs of an order that don't begin on its day any more. */
export function movedAway({ jobs, day }: OrderRow): OrderRow['jobs'] {
  return jobs.filter(job => job.day !== day)
}

function isFor(order: OrderRow, day: string, line: LoadLine): boolean {
  const { of, slug, pack } = packOfLine(line)
  return order.day === day && order.of === of && order.slug === slug && order.pack === pack
}

/** The pack of a line, as orders name it. */
export function packOfLine({ of, slug, pack }: LoadLine) {
  return { of, slug, pack: pack?.slug ?? '' }
}
