import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { lineForm } from '../helpers/loads.ts'
import { bookedCompost, bringCompost, someSupplier } from '../helpers/orders.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'

let app: TestApp
let owner: Browser
let helper: Browser
let supplier: number

// Monday, March 2, 2026.
beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
  helper = await helperBrowser(app)
  await bringCompost(app)
  supplier = await someSupplier(app)
})
afterAll(() => app.close())

const page = async (path = '/orders') => (await owner.get(path)).text
const ordersOf = (day: string) =>
  app.db.selectFrom('supply_order').selectAll().where('day', '=', day).execute()
const form = (day: string, instead = {}) => ({
  ...{ nth: '0', day, of: 'finish', slug: 'compost', pack: 'bulk', delivered: 'yes' },
  ...{ 'order.0.supplier': String(supplier), 'order.0.units': '2', ...instead },
})
const order = (day: string, instead = {}) => owner.post('/orders').type('form').send(form(day, instead))
const say = (id: number, fields: Record<string, string>) =>
  owner.post(`/orders/${id}`).type('form').send(fields)

test('ticked on the load list, its order has come; taken back there, it is to come as before: once each', async () => {
  const day = '2026-03-24'
  await bookedCompost(app, day, '12', '12')
  await order(day)
  const { id } = (await ordersOf(day))[0]!
  const stateOf = async () => (await ordersOf(day))[0]!.state
  expect((await helper.get(`/loads/${day}`)).text).toContain('On order: 2 cubic yards from Smith’s yard')
  await say(id, { state: 'confirmed' })
  expect((await helper.get(`/loads/${day}?language=es`)).text).toContain('(555) 010-0111, confirmado')
  await helper.get('/days?language=en')

  const form = await lineForm(helper, day)
  const send = () => helper.post(`/loads/${day}/got`).type('form').send(form)
  for (const status of [303, 303]) expect((await send()).status).toBe(status)
  expect(await stateOf()).toBe('delivered')
  // Noted as there in the office too, it's what was ticked, and counts once.
  expect((await say(id, { state: 'delivered' })).status).toBe(303)
  const got = () => app.db.selectFrom('load_got').select('id').where('day', '=', day).orderBy('id').execute()
  expect(await got()).toHaveLength(1)
  expect(await page()).toContain(`<a href="/loads/${day}">undo it on the load list`)

  const undo = async () => helper.post(`/loads/${day}/got/${(await got()).at(-1)!.id}/undo`)
  for (const status of [303, 303]) expect((await undo()).status).toBe(status)
  expect(await stateOf()).toBe('confirmed')
  const steps = app.db.selectFrom('supply_order_step').select('state').where('supply_order_id', '=', id)
  expect((await steps.orderBy('id').execute()).map(({ state }) => state)).toEqual([
    'ordered',
    'confirmed',
    'delivered',
    'confirmed',
  ])

  // The other way round: what the office notes as there is got, and taken back by whoever loads.
  await say(id, { state: 'delivered' })
  expect((await helper.get(`/loads/${day}`)).text).toContain('Everything is there.')
  await owner.post(`/loads/${day}/got/${(await got()).at(-1)!.id}/undo`)
  expect(await stateOf()).toBe('confirmed')
  await say(id, { state: 'delivered' })
  expect([await stateOf(), (await got()).length]).toEqual(['delivered', 3])
})

test('a tick and an order noted as there at once are one', async () => {
  const day = '2026-03-25'
  await bookedCompost(app, day, '12', '12')
  await order(day)
  const { id } = (await ordersOf(day))[0]!
  const form = await lineForm(helper, day)
  await Promise.all([
    helper.post(`/loads/${day}/got`).type('form').send(form),
    say(id, { state: 'delivered' }),
    helper.post(`/loads/${day}/got`).type('form').send(form),
  ])
  const got = app.db.selectFrom('load_got').select('id').where('day', '=', day)
  expect([(await got.execute()).length, (await ordersOf(day))[0]!.state]).toEqual([1, 'delivered'])
})
