import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { upsertThings } from '../loads/queries.ts'
import { moveOnHand } from '../on-hand/move.ts'
import { placeOrder, setOrder } from '../orders/order.ts'
import { findOrdering } from '../orders/page.ts'
import { findOrders } from '../orders/queries.ts'
import { findSuppliers, saveSupplier } from '../orders/suppliers.ts'
import { packOfLine } from '../orders/to-order.ts'

const LEFT = [
  { slug: 'shredded-wood', pack: 'bag-2', spot: '', units: '7' },
  { slug: 'dyed-wood', pack: 'bag-2', spot: 'Garage', units: '3' },
]

const ALONG = [
  { of: 'always', slug: '', things: 'Two tarps / Dos lonas\nWheelbarrows / Carretillas\nRakes / Rastrillos' },
  { of: 'extra', slug: 'edging', things: 'Half-moon edger / Cortabordes' },
] as const

/** What lies in the yard, who brings what, and the first order of the days ahead, confirmed; the next is still to be given. */
export async function fillYard(deps: Deps, ownerId: number): Promise<void> {
  const made = { at: deps.now(), by: ownerId }
  await deps.db.transaction().execute(async trx => {
    const moves = LEFT.map(
      one => ({ ...one, of: 'finish', kind: 'leftover', key: `demo ${one.slug}` }) as const,
    )
    await moveOnHand(trx, moves, made)
    for (const { of, slug, things } of ALONG) await upsertThings(trx, of, slug, things)
  })
  await saveSupplier(deps, ownerId, null, {
    ...{ name: 'Prairie Soil & Mulch (invented)', phone: '(555) 555-0144', cutoff: 'before 2 PM' },
    ...{ hours: 'Mon to Fri 7 to 5, Sat to noon', leadDays: 2, keeps: false },
    sells: ['finish dyed-wood bulk', 'finish shredded-wood bulk', 'finish compost bulk'],
  })
  const [supplier] = await findSuppliers(deps.db)
  const { due, today } = await findOrdering(deps, await requireBusiness(deps.db))
  const [first] = due.filter(({ line }) => line.delivered)
  if (!first || !supplier) return
  const { day, line } = first
  const what = { ...packOfLine(line), day, delivered: true, units: line.units.toFixed() }
  await placeOrder(deps, ownerId, { ...what, supplierId: supplier.id })
  const [order] = await findOrders(deps.db, today)
  await setOrder(deps, ownerId, order!.id, { state: 'confirmed', note: '' })
}
