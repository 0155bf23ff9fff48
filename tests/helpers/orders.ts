import { bookDay } from '../../src/bookings/booking.ts'
import { placeOrder } from '../../src/orders/order.ts'
import { saveSupplier } from '../../src/orders/suppliers.ts'
import { findRateTable } from '../../src/rates/queries.ts'
import { bulk } from '../estimate/packs/made.ts'
import type { TestApp } from './app.ts'
import { acceptedRequest } from './bookings.ts'
import { putInForce } from './rate-tables.ts'
import { bedTold, told } from './requests.ts'

/** Compost that is brought loose, in steps of 1 yd³ for $40 at a fee of $60, and no allowance; where it isn't listed. */
export async function bringCompost(app: TestApp): Promise<void> {
  const { body } = (await findRateTable(app.db, app.deps.now()))!
  if (body.finishes.some(({ slug, packs }) => slug === 'compost' && packs.length > 0)) return
  const heap = bulk({ step: '1', collected: false, delivered: { fee: '60', freeFrom: null } })
  await putInForce(app, table => ({
    ...table,
    allowance: '0',
    finishes: table.finishes.map(finish =>
      finish.slug === 'compost' ? { ...finish, packs: [heap] } : finish,
    ),
  }))
}

/** A booked job of one bed of compost, as long and wide as this in feet, 3 in deep. */
export async function bookedCompost(app: TestApp, day: string, length: string, width: string) {
  const sizes = { length: `${length} ft`, width: `${width} ft` }
  const beds = told(bedTold({ sizes, finish: 'compost' }))
  const accepted = await acceptedRequest(app, '1', { told: beds })
  await bookDay(app.deps, accepted.id, day)
  return accepted
}

/** A supplier of compost who wants to know two business days before; kept once. Gives the id. */
export async function someSupplier(app: TestApp): Promise<number> {
  const find = () =>
    app.db.selectFrom('supplier').select('id').where('removed_at', 'is', null).executeTakeFirst()
  const known = await find()
  if (known) return known.id
  await saveSupplier(app.deps, 1, null, {
    ...{ name: 'Smith’s yard', phone: '(555) 010-0111', cutoff: 'before 2 PM', hours: 'Mon to Fri 7 to 5' },
    ...{ leadDays: 2, keeps: false, sells: ['finish compost bulk', 'finish compost'] },
  })
  return (await find())!.id
}

/** What compost is ordered by for a day, as the page offers it. */
export async function compostOrder(app: TestApp, day: string, units: string) {
  const what = { of: 'finish', slug: 'compost', pack: 'bulk', delivered: true } as const
  return { ...what, supplierId: await someSupplier(app), day, units }
}

/** An order of compost of which no pack is listed, for a job of that day. */
export async function orderedAsItComes(app: TestApp, day: string): Promise<void> {
  await bookedCompost(app, day, '12', '12')
  const order = await compostOrder(app, day, '1.5')
  await placeOrder(app.deps, 1, { ...order, pack: '', delivered: false })
}

/** The page Orders with compost to be ordered, or one order of it that stands beside that. */
export async function ordersPage(app: TestApp, state = ''): Promise<string> {
  await someSupplier(app)
  const day = app.deps.now().toString().slice(0, 10)
  const later = Temporal.PlainDate.from(day).add({ days: 14 })
  const first = later.subtract({ days: (later.dayOfWeek - 1) % 7 })
  await bringCompost(app)
  await bookedCompost(app, first.toString(), '12', '12')
  await bookedCompost(app, first.add({ days: 1 }).toString(), '12', '12')
  if (state) await placeOrder(app.deps, 1, await compostOrder(app, first.toString(), '2'))
  return '/orders'
}
