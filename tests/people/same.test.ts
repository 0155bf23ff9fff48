import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { decideCustomers, takeBack } from '../../src/people/same.ts'
import { findOffers } from '../../src/places/offers.ts'
import type { Sending } from '../../src/requests/quote-request.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

let last = 1000
/** Somebody of their own: no phone, mail or address of anybody else's, unless it is given. */
async function send(instead: Partial<Sending> = {}) {
  last += 1
  const street = `${last} Foxglove Close`
  const own = { name: `Hazel ${last}`, phone: `(512) 555-${last}`, email: `hazel${last}@example.com`, street }
  const { id, number, ownPath } = await sendRequest(app, { ...own, submissionKey: randomUUID(), ...instead })
  const row = await app.db
    .selectFrom('quote_request')
    .select(['customer_id', 'place_id'])
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  return { id, number, ownPath, customer: row.customer_id, place: row.place_id, ...own, ...instead }
}

const offersTo = async (id: number) =>
  (await findOffers(app.db, 'customer', id)).map(offer => [offer.id, offer.by])
const decide = (one: number, other: number, decision: 'same' | 'place' | 'apart') =>
  decideCustomers(app.deps, { one, other, accountId: 1 }, decision)
const post = (path: string, fields: Record<string, unknown>) => owner.post(path).type('form').send(fields)

async function headOf(kind: 'customer' | 'place', id: number) {
  const row = await app.db
    .selectFrom(kind)
    .select(['head_id', 'joined_to'])
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  return row
}

async function verbsOf(id: number) {
  const rows = await app.db
    .selectFrom('history')
    .select(['verb', 'detail'])
    .where('quote_request_id', '=', id)
    .where('verb', '<>', 'sent')
    .orderBy('id')
    .execute()
  return rows.map(({ verb, detail }) => `${verb}: ${detail.who}`)
}

async function standing(kind: 'customer' | 'place', ...ids: number[]) {
  const rows = await app.db
    .selectFrom(`${kind}_decision`)
    .selectAll()
    .where('one_id', 'in', ids)
    .orderBy('id')
    .execute()
  return rows.map(({ verb, undone_at }) => `${verb}${undone_at ? ', undone' : ''}`)
}

test('a phone, a mail address or an address in another spelling is recognized, and nothing else is', async () => {
  const hazel = await send()
  const byPhone = await send({ phone: `+1 512.555.${last}` })
  const byMail = await send({ email: hazel.email.toUpperCase().replace('@', '+beds@') })
  const byAddress = await send({ street: hazel.street.toUpperCase().replace('CLOSE', 'cl., Fern Hollow') })
  const stranger = await send()
  expect(await offersTo(byPhone.customer)).toEqual([[hazel.customer, 'same phone']])
  expect(await offersTo(byMail.customer)).toEqual([[hazel.customer, 'same email']])
  expect(await offersTo(byAddress.customer)).toEqual([[hazel.customer, 'same address']])
  expect(await offersTo(stranger.customer)).toEqual([])
  const elsewhere = await send({ street: hazel.street, postcode: '43005' })
  expect(await offersTo(elsewhere.customer)).toEqual([])
  const unsaid = await send({ street: hazel.street, postcode: '' })
  expect((await offersTo(unsaid.customer)).map(([id]) => id)).toContain(hazel.customer)
})

test('is offered on the request’s page, joined there, and shown as one customer with one property', async () => {
  const before = await send({ note: 'The gate sticks' })
  const again = await send({ name: 'H. Underhill', phone: before.phone, street: before.street })
  const page = (await owner.get(`/queue/${again.number}`)).text
  expect(page).toContain(`${before.name}, ${before.street}</a>?`)
  expect(page).toContain('same phone and address')
  const answer = await post(`/customers/${again.customer}/same`, {
    other: before.customer,
    number: again.number,
    decision: 'same',
  })
  expect([answer.status, answer.headers.location]).toEqual([303, `/queue/${again.number}`])
  expect((await owner.get(`/queue/${again.number}`)).text).not.toContain('same phone and address')
  expect(await headOf('customer', again.customer)).toEqual({
    head_id: before.customer,
    joined_to: before.customer,
  })
  expect(await headOf('place', again.place)).toEqual({ head_id: before.place, joined_to: before.place })
  const said = (other: { name: string; street: string }) => [
    `customer joined with: ${other.name}`,
    `place joined with: ${other.street}`,
  ]
  expect(await verbsOf(again.id)).toEqual(said(before))
  expect(await verbsOf(before.id)).toEqual(said(again))

  const moved = await owner.get(`/customers/${again.customer}`)
  expect([moved.status, moved.headers.location]).toEqual([303, `/customers/${before.customer}`])
  const customer = (await owner.get(`/customers/${before.customer}`)).text
  for (const part of [before.number, again.number, 'The gate sticks', before.email, again.email])
    expect(customer).toContain(part)
  expect(customer.match(/href="\/places\/\d+"/g)).toEqual([`href="/places/${before.place}"`])
  const place = (await owner.get(`/places/${before.place}`)).text
  for (const part of [before.number, again.number, 'Rectangle, 20 ft × 5 ft']) expect(place).toContain(part)
})

test('a homeowner is told nothing of it: their page has what they sent and no more', async () => {
  const before = await send({ gate: 'code 4711' })
  const again = await send({ phone: before.phone, street: before.street })
  const page = (await app.browser().get(again.ownPath)).text
  await decide(again.customer, before.customer, 'same')
  const joined = (await app.browser().get(again.ownPath)).text
  expect(joined).toBe(page)
  for (const part of ['4711', before.number, before.email, before.name]) expect(joined).not.toContain(part)
})

test('asked twice, or by two at once, it is done once', async () => {
  const [one, other] = [await send(), await send()]
  await Promise.all(
    [1, 2, 3, 4].map(nth =>
      decide(
        ...((nth % 2 ? [one, other] : [other, one]).map(({ customer }) => customer) as [number, number]),
        'same',
      ),
    ),
  )
  await decide(other.customer, one.customer, 'same')
  expect(await standing('customer', one.customer, other.customer)).toEqual(['joined'])
  expect(await verbsOf(other.id)).toEqual([`customer joined with: ${one.name}`])
  const { id } = await app.db
    .selectFrom('customer_decision')
    .select('id')
    .where('one_id', '=', other.customer)
    .executeTakeFirstOrThrow()
  await Promise.all([1, 2].map(() => takeBack(app.deps, 'customer', id, 1)))
  expect(await headOf('customer', other.customer)).toEqual({ head_id: other.customer, joined_to: null })
  expect(await verbsOf(other.id)).toEqual([
    `customer joined with: ${one.name}`,
    `customer separated from: ${one.name}`,
  ])
  expect(await standing('customer', one.customer, other.customer)).toEqual(['joined, undone'])
})

test('kept apart they aren’t offered, until that is undone or they are joined after all', async () => {
  const one = await send()
  const other = await send({ phone: one.phone, street: one.street })
  await post(`/customers/${other.customer}/same`, { other: one.customer, decision: 'apart' })
  await post(`/customers/${one.customer}/same`, { other: other.customer, decision: 'apart' })
  expect(await standing('customer', one.customer, other.customer)).toEqual(['kept apart'])
  expect(await standing('place', one.place, other.place)).toEqual(['kept apart'])
  expect([await offersTo(one.customer), await offersTo(other.customer)]).toEqual([[], []])
  // What is joined to one of them is kept apart from the other too.
  const third = await send()
  await decide(third.customer, other.customer, 'same')
  expect(await offersTo(one.customer)).toEqual([])
  const page = (await owner.get(`/customers/${one.customer}`)).text
  const undo = /action="(\/customers\/\d+\/decisions\/\d+\/undo)"/.exec(page)![1]!
  expect((await post(undo, {})).status).toBe(303)
  expect(await offersTo(one.customer)).toEqual([[other.customer, 'same phone and address']])
  await decide(one.customer, other.customer, 'apart')
  await decide(one.customer, other.customer, 'same')
  expect(await standing('customer', one.customer, other.customer)).toEqual([
    'kept apart, undone',
    'kept apart, undone',
    'joined',
  ])
  await expect(decide(one.customer, third.customer, 'apart')).rejects.toThrow('people.joined')
})

test('one property may have two customers', async () => {
  const before = await send()
  const next = await send({ street: before.street })
  await decide(next.customer, before.customer, 'place')
  expect((await headOf('customer', next.customer)).joined_to).toBeNull()
  expect((await headOf('place', next.place)).head_id).toBe(before.place)
  expect(await offersTo(next.customer)).toEqual([])
  const page = (await owner.get(`/places/${before.place}`)).text
  for (const { customer, name } of [before, next])
    expect(page).toContain(`<a href="/customers/${customer}">${name}</a>`)
})

test('groups join whole, and come apart as they were', async () => {
  const [a, b, c, d] = [await send(), await send(), await send(), await send()]
  await decide(b.customer, a.customer, 'same')
  await decide(d.customer, c.customer, 'same')
  await decide(d.customer, b.customer, 'same')
  for (const { customer } of [a, b, c, d])
    expect((await headOf('customer', customer)).head_id).toBe(a.customer)
  const { id } = await app.db
    .selectFrom('customer_decision')
    .select('id')
    .where('one_id', '=', c.customer)
    .executeTakeFirstOrThrow()
  await takeBack(app.deps, 'customer', id, 1)
  expect((await headOf('customer', b.customer)).head_id).toBe(a.customer)
  expect(await headOf('customer', d.customer)).toEqual({ head_id: c.customer, joined_to: c.customer })
})

test('the database refuses a round and a second way up, whoever asks', async () => {
  const [a, b, c] = [await send(), await send(), await send()]
  const point = (one: { customer: number }, to: { customer: number } | null) =>
    app.db
      .updateTable('customer')
      .set({ joined_to: to?.customer ?? null })
      .where('id', '=', one.customer)
      .execute()
      .then(() => 'done')
      .catch(error => String(error))
  expect(await point(b, a)).toBe('done')
  expect(await point(a, b)).toMatch('round')
  expect(await point(a, a)).toMatch('round')
  expect(await point(b, c)).toMatch('joined already')
  // Two at once that would make a round: one of them is refused.
  const [x, y] = [await send(), await send()]
  const both = await Promise.all([point(x, y), point(y, x)])
  expect(both.filter(said => said === 'done')).toHaveLength(1)
})

test('what is not there is not found, and a button that isn’t ours is refused', async () => {
  const { customer } = await send()
  expect((await owner.get('/customers/99999999')).status).toBe(404)
  expect((await owner.get('/places/x')).status).toBe(404)
  expect((await post(`/customers/${customer}/same`, { other: '99999999', decision: 'same' })).status).toBe(
    404,
  )
  for (const sent of [
    { other: customer },
    { other: 'x', decision: 'same' },
    { other: customer, decision: 'all' },
  ])
    expect((await post(`/customers/${customer}/same`, sent)).status).toBe(400)
  expect((await post('/customers/1/decisions/99999999/undo', {})).status).toBe(404)
})
