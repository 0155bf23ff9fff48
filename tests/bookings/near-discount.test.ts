import { afterAll, afterEach, beforeAll, expect, test } from 'vitest'
import { acceptAndBook, acceptQuote, bookDay } from '../../src/bookings/booking.ts'
import { callOff } from '../../src/bookings/call-off.ts'
import { moveWork } from '../../src/bookings/move.ts'
import { json } from '../../src/db/json.ts'
import { findAcceptedQuote } from '../../src/quotes/queries.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, acceptForm, post, quotedRequest, standing } from '../helpers/bookings.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'

const STAFF = { kind: 'staff', accountId: 1 } as const
const NEAR = '2026-03-10'
const FAR = '2026-03-11'
const WORDS = 'Near another job that day'

let app: TestApp
let owner: Browser
let neighbor: number

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
  await app.db
    .updateTable('business')
    .set({ near_discount: json({ by: 'share', value: '0.05' }) })
    .execute()
})
afterAll(() => app.close())
afterEach(async () => {
  // What is booked is near for whoever comes next.
  const booked = await app.db
    .selectFrom('booking')
    .select('quote_request_id as id')
    .where('called_off_at', 'is', null)
    .execute()
  for (const { id } of booked) await callOff(app.deps, id, '')
})

/** A neighbor who is booked on the near day. */
async function withNeighbor() {
  ;({ id: neighbor } = await acceptedRequest(app, '1'))
  await bookDay(app.deps, neighbor, NEAR, STAFF)
}

/** A request priced at 400, accepted or not. */
async function pricedAt400(isAccepted = true) {
  const { id, number, path } = await quotedRequest(app, '2')
  const { total } = await app.db
    .selectFrom('quote')
    .select('total')
    .where('quote_request_id', '=', id)
    .executeTakeFirstOrThrow()
  const added = [{ description: 'Gate', amount: String(400 - Number(total)), reason: 'asked for' }]
  const { revision } = await quoteRequest(app, number, { added, laborHours: '2' })
  if (isAccepted) await acceptQuote(app.deps, id, { revision, typedName: 'Carol Reyes' })
  return { id, number, path, revision }
}

async function priceOf(id: number) {
  const { revision, total, lines, typed_name } = (await findAcceptedQuote(app.db, id))!
  const own = lines.filter(({ description }) => description === WORDS).map(({ amount }) => amount)
  return { revision, total, own, typed_name }
}
const ownPath = async (id: number) => `${await findLinkPath(app.db, app.deps.secretKey, 'own page', id)}/day`

test('is shown beside the day, and taken off when it is booked, once, as a revision of its own', async () => {
  await withNeighbor()
  const { id, number, path } = await pricedAt400()
  const page = (await app.browser().get(path)).text
  // Twenty off four hundred.
  expect(page).toContain('We’re in your area that day: 5% off, $20.00 less. $380.00 in all.')
  const prices = /name="prices" value="([^"]*)"/.exec(page)![1]!
  expect(prices).toBe(`-${NEAR}`)
  const form = { day: NEAR, prices }
  const answers = await Promise.all([1, 2].map(() => post(app, `${path}/day`, form)))
  expect(answers.map(({ status }) => status)).toEqual([303, 303])
  expect(await priceOf(id)).toEqual({
    revision: 3,
    total: '380.00',
    own: ['-20.00'],
    typed_name: 'Carol Reyes',
  })
  const { stage, verbs, days } = await standing(app, id)
  expect([stage, days.map(({ day }) => day)]).toEqual(['booked', [NEAR]])
  expect(verbs.filter(verb => verb === 'near discount')).toHaveLength(1)
  expect((await owner.get(`/queue/${number}`)).text).toContain(
    'Discount for a day near another job: $380.00 (quote 3)',
  )
  const spanish = await app.browser().get(path).set('accept-language', 'es')
  expect(spanish.text).toContain('Descuento: ese día estamos en su zona')
  // A change order starts with it, as what was promised stays.
  expect((await owner.get(`/queue/${number}/quote`)).text).toContain(WORDS)
  const added = [{ description: WORDS, amount: '-20.00', reason: WORDS }]
  await quoteRequest(app, number, { added, laborHours: '3' })
  const slug = await app.db
    .selectFrom('quote_line')
    .innerJoin('quote', 'quote.id', 'quote_line.quote_id')
    .select('slug')
    .where('quote_request_id', '=', id)
    .where('revision', '=', 4)
    .where('description', '=', WORDS)
    .executeTakeFirstOrThrow()
  expect(slug).toEqual({ slug: 'near' })
})

test('accepting and booking shows the total before it counts, and what is accepted names the discount', async () => {
  await withNeighbor()
  const { id, path, revision } = await pricedAt400(false)
  const sent = acceptForm({ day: NEAR, revision: String(revision) })
  const check = (await post(app, `${path}/check`, sent)).text
  expect(check).toContain('Accept for $380.00')
  const digest = /name="digest" value="([^"]+)"/.exec(check)![1]!
  for (const _press of [1, 2])
    expect((await post(app, `${path}/accept`, { ...sent, digest })).status).toBe(303)
  expect(await priceOf(id)).toMatchObject({ revision: revision + 1, total: '380.00', own: ['-20.00'] })
  const text = await app.db
    .selectFrom('accepted_text')
    .innerJoin('quote', 'quote.id', 'quote_id')
    .select(['text', 'digest'])
    .where('quote_request_id', '=', id)
    .orderBy('revision', 'desc')
    .executeTakeFirstOrThrow()
  expect(text.digest).toBe(digest)
  expect(text.text).toContain('Discount: we’re in your area that day: -$20.00')
})

test('a neighbor who went meanwhile: the price that was read no longer stands, and nothing is booked', async () => {
  await withNeighbor()
  const open = await pricedAt400(false)
  const sent = acceptForm({ day: NEAR, revision: String(open.revision) })
  const check = (await post(app, `${open.path}/check`, sent)).text
  const digest = /name="digest" value="([^"]+)"/.exec(check)![1]!
  const accepted = await pricedAt400()
  await callOff(app.deps, neighbor, '')
  expect((await post(app, `${open.path}/accept`, { ...sent, digest })).status).toBe(409)
  const answer = await post(app, `${accepted.path}/day`, { day: NEAR, prices: `-${NEAR}` })
  expect([answer.status, answer.text.includes('has changed since you opened this page')]).toEqual([409, true])
  for (const { id } of [open, accepted])
    expect(await standing(app, id)).toMatchObject({ stage: 'quoted', days: [] })
  expect((await standing(app, open.id)).accepted).toEqual([])
})

test('elsewhere the price stays; who moves there alone pays it, is told before, and whom the staff move does not', async () => {
  await withNeighbor()
  const { id } = await pricedAt400()
  await bookDay(app.deps, id, FAR)
  expect(await priceOf(id)).toMatchObject({ revision: 2, total: '400.00', own: [] })
  await callOff(app.deps, id, '')

  const moved = await pricedAt400()
  await bookDay(app.deps, moved.id, NEAR)
  await moveWork(app.deps, moved.id, { from: NEAR, to: FAR }, STAFF)
  expect(await priceOf(moved.id)).toMatchObject({ revision: 3, total: '380.00' })
  await moveWork(app.deps, moved.id, { from: FAR, to: NEAR }, STAFF)
  const path = await ownPath(moved.id)
  const page = (await app.browser().get(path)).text
  expect(page).toContain('Without the discount: $400.00 in all')
  // A page that didn't say so is refused.
  const unseen = await post(app, path, { from: NEAR, day: FAR, prices: '' })
  expect(unseen.status).toBe(409)
  const prices = /name="prices" value="([^"]*)"/.exec(page)![1]!
  expect(prices.split(',')).toContain(`+${FAR}`)
  for (const _press of [1, 2])
    expect((await post(app, path, { from: NEAR, day: FAR, prices })).status).toBe(303)
  expect(await priceOf(moved.id)).toMatchObject({ revision: 4, total: '400.00', own: [] })
  expect((await standing(app, moved.id)).verbs.slice(-2)).toEqual(['near discount ended', 'work moved'])
  // And back.
  await moveWork(app.deps, moved.id, { from: FAR, to: NEAR }, { kind: 'homeowner' })
  expect(await priceOf(moved.id)).toMatchObject({ revision: 5, total: '380.00' })
})

test('nothing comes off a minimum charge, for the staff, or where the owner gives none', async () => {
  await withNeighbor()
  // A small bed: the minimum charge of 150.
  const { id, path } = await acceptedRequest(app, '1')
  expect((await app.browser().get(path)).text).not.toContain('5% off')
  await bookDay(app.deps, id, NEAR)
  expect((await priceOf(id)).own).toEqual([])
  const staffs = await pricedAt400()
  await bookDay(app.deps, staffs.id, NEAR, STAFF)
  expect((await priceOf(staffs.id)).own).toEqual([])
  const { revision, id: plain } = await pricedAt400(false)
  await app.db.updateTable('business').set({ near_discount: null }).execute()
  await acceptAndBook(app.deps, plain, { revision, typedName: 'Carol Reyes' }, '2026-03-10')
  expect((await priceOf(plain)).own).toEqual([])
  await app.db
    .updateTable('business')
    .set({ near_discount: json({ by: 'share', value: '0.05' }) })
    .execute()
})

test('a week is chosen at its price where the owner gives a discount too, after accepting and with it', async () => {
  await withNeighbor()
  await app.db.updateTable('business').set({ day_choice: 'week' }).execute()
  const day = 'week 2026-03-09'
  const accepted = await pricedAt400()
  const answers = [await post(app, `${accepted.path}/day`, { day, prices: '' })]
  const open = await pricedAt400(false)
  const sent = acceptForm({ day, revision: String(open.revision) })
  const check = (await post(app, `${open.path}/check`, sent)).text
  const digest = /name="digest" value="([^"]+)"/.exec(check)![1]!
  answers.push(await post(app, `${open.path}/accept`, { ...sent, digest }))
  expect(answers.map(({ status }) => status)).toEqual([303, 303])
  for (const { id } of [accepted, open]) {
    expect(await priceOf(id)).toMatchObject({ total: '400.00', own: [] })
    expect((await standing(app, id)).stage).toBe('week chosen')
  }
  await app.db.updateTable('business').set({ day_choice: 'day' }).execute()
})
