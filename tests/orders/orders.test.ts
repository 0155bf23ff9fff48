import { afterAll, beforeAll, expect, test } from 'vitest'
import { callOff } from '../../src/bookings/call-off.ts'
import { businessDayBefore } from '../../src/lib/business-days.ts'
import { placeOrder } from '../../src/orders/order.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { bookedBed, readyToLoad } from '../helpers/loads.ts'
import { bookedCompost, bringCompost, compostOrder, someSupplier } from '../helpers/orders.ts'
import { expectOwnerOnly } from '../helpers/owner-only.ts'
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

test('something is ordered so many working days before: no weekends and no holidays', () => {
  expect(businessDayBefore('2026-03-10', 2)).toBe('2026-03-06')
  expect(businessDayBefore('2026-03-09', 2)).toBe('2026-03-05')
  // Monday, May 25, is Memorial Day.
  expect(businessDayBefore('2026-05-26', 1)).toBe('2026-05-22')
  expect(businessDayBefore('2026-03-10', 0)).toBe('2026-03-10')
})

test('what is brought is listed to be ordered, with whom to call and by when, and once only', async () => {
  const day = '2026-03-12'
  await bookedCompost(app, day, '12', '12')
  const due = await page()
  // UF/IFAS Gardening Solutions: 1.3333 yd³, in whole yards 2.
  for (const words of [
    '2 cubic yards, ',
    'Thursday, March 12',
    'by Tue, Mar 10',
    '(555) 010-0111',
    'before 2 PM',
  ])
    expect(due).toContain(words)
  for (const status of [303, 303]) expect((await order(day)).status).toBe(status)
  expect(await ordersOf(day)).toMatchObject([{ units: '2.000', state: 'ordered' }])
  expect(await page()).not.toContain('by Tue, Mar 10')
  const other = await order(day, { 'order.0.units': '3' })
  expect([other.status, (await ordersOf(day)).length]).toEqual([409, 1])
  expect((await order(day, { 'order.0.units': 'some' })).status).toBe(422)
  expect((await order('2026-03-31')).status).toBe(409)
})

test('what is picked up is listed to be ordered only at a supplier who keeps it', async () => {
  await readyToLoad(app)
  await bookedBed(app, '2026-03-18', '12', '12')
  const told = {
    name: 'Wood yard',
    phone: '',
    cutoff: '',
    hours: '',
    leadDays: '1',
    'sells[]': 'finish shredded-wood bulk',
  }
  const save = (fields: object) => owner.post('/orders/suppliers').type('form').send(fields)
  expect((await save(told)).status).toBe(303)
  expect(await page()).not.toContain('Wednesday, March 18')
  const { id } = await app.db
    .selectFrom('supplier')
    .select('id')
    .where('name', '=', 'Wood yard')
    .executeTakeFirstOrThrow()
  const changed = await owner
    .post(`/orders/suppliers/${id}`)
    .type('form')
    .send({ ...told, keeps: 'yes' })
  expect(changed.status).toBe(303)
  const due = await page()
  for (const words of ['picked up', 'Wednesday, March 18', 'by Tue, Mar 17']) expect(due).toContain(words)
  await owner.post(`/orders/suppliers/${id}/remove`)
})

test('two orders of the same at once are one', async () => {
  const day = '2026-03-13'
  await bookedCompost(app, day, '12', '12')
  await Promise.all([order(day), order(day), placeOrder(app.deps, 1, await compostOrder(app, day, '2'))])
  expect(await ordersOf(day)).toHaveLength(1)
})

test('an order is confirmed and comes, where it was dropped is kept, and the load list counts it as got', async () => {
  const day = '2026-03-16'
  const { number } = await bookedCompost(app, day, '12', '12')
  await order(day)
  const id = (await ordersOf(day))[0]!.id
  const came = { state: 'delivered', [`dropped.${id}`]: 'Left of the drive' }
  for (const status of [303, 303]) expect((await say(id, { state: 'confirmed' })).status).toBe(status)
  for (const status of [303, 303]) expect((await say(id, came)).status).toBe(status)
  expect((await say(id, { state: 'canceled' })).status).toBe(409)
  expect(await page()).toContain('dropped: Left of the drive')
  const steps = app.db
    .selectFrom('supply_order_step')
    .select('state')
    .where('supply_order_id', '=', id)
    .orderBy('id')
  expect((await steps.execute()).map(({ state }) => state)).toEqual(['ordered', 'confirmed', 'delivered'])
  const load = (await helper.get(`/loads/${day}`)).text
  expect(load).toContain('Everything is there.')
  expect(load).toContain(number)
})

test('moving a job says which orders it breaks, before and after; an order that no longer fits is told', async () => {
  const day = '2026-03-17'
  const { id, number } = await bookedCompost(app, day, '12', '12')
  await order(day)
  expect(await page(`/queue/${number}`)).toContain(
    'Moving it breaks an order. Smith’s yard, (555) 010-0111: 2 cubic yards',
  )
  expect(await page(`/days/${day}/rain`)).toContain('Moving it breaks an order. Smith’s yard')
  expect(await page()).not.toContain(`${number} is now on`)
  const moved = await owner
    .post(`/queue/${number}/move`)
    .type('form')
    .send({ from: day, newDay: '2026-03-19' })
  expect(moved.status).toBe(303)
  expect(await page(moved.headers.location)).toContain('Call about an order: Smith’s yard')
  expect(await page()).toContain(`${number} is now on Thu, Mar 19.`)
  expect(await page('/days')).toContain('no longer fit')
  await callOff(app.deps, id, 'Moving')
  expect(await page()).toContain(`${number} isn’t booked any more.`)
  const [standing] = await ordersOf(day)
  expect((await say(standing!.id, { state: 'canceled' })).status).toBe(303)
  expect(await page()).not.toContain(number)
})

test('one more job on the day says that the order isn’t enough', async () => {
  const day = '2026-03-23'
  await bookedCompost(app, day, '12', '12')
  await order(day)
  await bookedCompost(app, day, '12', '12')
  // 2.6667 yd³ are 3.
  expect(await page()).toContain('The day takes 3 cubic yards now.')
})

test('suppliers are the owner’s, one of a name, and can be taken off the list', async () => {
  for (const path of ['/orders', '/orders/suppliers']) {
    await expectOwnerOnly(app, helper, 'get', path)
    await expectOwnerOnly(app, helper, 'post', path)
  }
  const told = {
    name: 'Stone & Co',
    phone: '',
    cutoff: '',
    hours: '',
    leadDays: '1',
    'sells[]': ['finish stone', 'a crane'],
  }
  const add = (instead = {}) =>
    owner
      .post('/orders/suppliers')
      .type('form')
      .send({ ...told, ...instead })
  expect((await add({ name: '' })).status).toBe(422)
  expect((await add({ leadDays: '31' })).status).toBe(422)
  expect((await add()).status).toBe(303)
  expect((await add({ name: 'stone & co' })).status).toBe(409)
  const row = await app.db
    .selectFrom('supplier')
    .selectAll()
    .where('name', '=', 'Stone & Co')
    .executeTakeFirstOrThrow()
  expect(row.sells).toEqual(['finish stone'])
  const path = `/orders/suppliers/${row.id}`
  expect(
    (
      await owner
        .post(path)
        .type('form')
        .send({ ...told, leadDays: '3' })
    ).status,
  ).toBe(303)
  expect((await owner.post(`${path}/remove`)).status).toBe(303)
  expect((await owner.post(`${path}/remove`)).status).toBe(303)
  expect((await owner.get(path)).status).toBe(404)
})
