import { callOff } from '../../src/bookings/call-off.ts'
import { makeOffer } from '../../src/offers/offer.ts'
import { placeOrder } from '../../src/orders/order.ts'
import { saveSupplier } from '../../src/orders/suppliers.ts'
import type { TestApp } from '../helpers/app.ts'
import { pastCustomer } from '../helpers/offers.ts'
import { bags, listPacks, move } from '../helpers/on-hand.ts'
import { bookedCompost, bringCompost, compostOrder } from '../helpers/orders.ts'
import { sendRequest } from '../helpers/requests.ts'
import { mine, type Race } from './race.ts'
import type { Sent } from './two-services.ts'

const DAY = '2026-03-17'

/** A day whose compost is to be ordered from a supplier of this name. */
const toOrder = async (app: TestApp, cookie: string, name: string) => {
  await bringCompost(app)
  await bookedCompost(app, DAY, '12', '12')
  const told = { name, phone: '', cutoff: '', hours: '', leadDays: 0, keeps: false }
  await saveSupplier(app.deps, 1, null, { ...told, sells: ['finish compost bulk'] })
  const { id: supplierId } = await app.db
    .selectFrom('supplier')
    .select('id')
    .where('name', '=', name)
    .executeTakeFirstOrThrow()
  const { delivered, units, day, ...pack } = await compostOrder(app, DAY, '2')
  return {
    place: (wanted: string): Sent => ({
      ...{ path: '/orders', cookie },
      form: {
        ...{ of: pack.of, slug: pack.slug, pack: pack.pack, day, nth: '0', delivered: 'yes' },
        ...{ 'order.0.supplier': String(supplierId), 'order.0.units': wanted },
      },
    }),
    placed: async () => {
      await placeOrder(app.deps, 1, { ...pack, supplierId, delivered, units, day })
      const order = app.db.selectFrom('supply_order').select('id').orderBy('id', 'desc').limit(1)
      const { id } = await order.executeTakeFirstOrThrow()
      return (state: string): Sent => ({ path: `/orders/${id}`, form: { state }, cookie })
    },
  }
}

/** The newest order as it stands, and whether what came of it counts as got. */
async function orderOf({ db }: TestApp): Promise<string[]> {
  const rows = await db
    .selectFrom('supply_order')
    .select(['state', 'units', 'load_got_id'])
    .where('day', '=', DAY)
    .where(eb => eb('id', 'in', eb.selectFrom('supply_order').select(eb.fn.max('id').as('id'))))
    .execute()
  return rows.map(({ state, units, load_got_id: got }) => `${Number(units)} ${state}${got ? ', got' : ''}`)
}

/** Supplies that are ordered and counted, offers that are sent, and requests that are taken up again: each once. */
export const GOODS_RACES: Race[] = [
  {
    name: 'ordering so much for a day and so much',
    forms: async (app, cookie, email) => {
      const { place } = await toOrder(app, cookie, email)
      return [place('2'), place('3')]
    },
    besides: orderOf,
    onlyOne: true,
    outcomes: [
      { stages: [], besides: ['2 ordered'] },
      { stages: [], besides: ['3 ordered'] },
    ],
  },
  {
    name: 'an order that came and is canceled',
    forms: async (app, cookie, email) => {
      const set = await (await toOrder(app, cookie, email)).placed()
      return [set('delivered'), set('canceled')]
    },
    besides: orderOf,
    onlyOne: true,
    outcomes: [
      { stages: [], besides: ['2 delivered, got'] },
      { stages: [], besides: ['2 canceled'] },
    ],
  },
  {
    name: 'counting what is on hand, and otherwise',
    forms: async (app, cookie, email) => {
      await listPacks(app)
      await move(app, bags('7', { key: email, spot: email }))
      const { id } = await app.db
        .selectFrom('on_hand')
        .select('id')
        .where('spot', '=', email)
        .executeTakeFirstOrThrow()
      return ['5', '4'].map(units => ({
        path: `/on-hand/${id}`,
        form: { seen: '7', units, note: '' },
        cookie,
      }))
    },
    besides: async ({ db }, email) => {
      const rows = await db.selectFrom('on_hand').select('units').where('spot', '=', email).execute()
      return rows.map(({ units }) => String(Number(units)))
    },
    onlyOne: true,
    outcomes: [
      { stages: [], besides: ['5'] },
      { stages: [], besides: ['4'] },
    ],
  },
  {
    name: 'sending an offer, the same form',
    forms: async (app, cookie, email) => {
      const { customerId } = await pastCustomer(app, mine(email))
      await app.db.updateTable('business').set({ postal_address: '1 Fern Way, Austin TX 78701' }).execute()
      const id = await makeOffer(app.deps, 1, {
        wordsEn: 'From $400',
        wordsEs: '',
        customerIds: [customerId],
      })
      return [{ path: `/offers/${id}/send`, form: {}, cookie }]
    },
    outcomes: [{ stages: ['done'], outbox: ['offer'] }],
  },
  {
    name: 'taking a request up again, the same form',
    forms: async (app, cookie, email) => {
      const { id, number } = await sendRequest(app, mine(email))
      await callOff(app.deps, id, 'Moving')
      return [{ path: `/queue/${number}/again`, form: {}, cookie }]
    },
    outcomes: [{ stages: ['called off', 'new'], history: ['taken up again', 'taken up again as'] }],
  },
]
