import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { callOff } from '../../src/bookings/call-off.ts'
import { Guesses } from '../../src/limits/guesses.ts'
import { endOwnLink, makeOwnLink, viewOwnLink } from '../../src/queue/own-link.ts'
import { findEndedLink, findStandingLink, renewLink } from '../../src/requests/links.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { quotedRequest } from '../helpers/bookings.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let ownerId: number
let owner: Browser
beforeAll(async () => {
  const guesses = new Guesses(() => Temporal.Instant.from('2026-03-02T15:00:00Z'), {
    network: { most: 3, perSecond: 0.001 },
    all: { most: 1000, perSecond: 1 },
  })
  app = await testApp({ load: { guesses } })
  ;({ owner } = await openBusiness(app))
  ownerId = (await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow()).id
})
beforeEach(() => app.setClock('2026-03-02T15:00:00Z'))
afterAll(() => app.close())

const statusOf = async (path: string) => (await app.browser().get(path)).status
const standing = (id: number, purpose: 'own page' | 'booking' | 'reading' = 'own page') =>
  findStandingLink(app.db, app.deps.secretKey, purpose, id, app.deps.now())
const post = (path: string, fields = {}) => owner.post(path).type('form').send(fields)

test('as long as a job goes on its links don’t end, and 18 months after it did they all do', async () => {
  const { id, path } = await quotedRequest(app)
  const own = (await standing(id))!
  expect([own.ends_at, (await standing(id, 'booking'))!.ends_at]).toEqual([null, null])
  app.setClock('2026-03-10T15:00:00Z')
  await callOff(app.deps, id, '')
  const ends = '2027-09-10T15:00:00Z'
  for (const purpose of ['own page', 'booking', 'reading'] as const)
    expect((await standing(id, purpose))!.ends_at, purpose).toBe(ends)
  app.setClock('2027-09-10T14:59:59Z')
  expect([await statusOf(own.path), await statusOf(path)]).toEqual([200, 200])
  app.setClock(ends)
  expect([await statusOf(own.path), await statusOf(path)]).toEqual([410, 410])
  const page = await app.browser().get(own.path)
  expect(page.text).toContain('This link has expired')
  expect(page.text).not.toContain('Carol')
  expect(await standing(id)).toBeUndefined()
})

test('one made for a job that is over ends too, and an offer keeps last year’s open for another year', async () => {
  const { id } = await quotedRequest(app)
  await callOff(app.deps, id, '')
  await makeOwnLink(app.deps, ownerId, id, (await standing(id))!.id)
  const end = Temporal.Instant.from((await standing(id))!.ends_at!)
  expect(end.since(app.deps.now()).total('hours')).toBeGreaterThan(24 * 540)
  await app.db.transaction().execute(trx => renewLink(trx, 'own page', id, end.add({ hours: 5 })))
  expect((await standing(id))!.ends_at).toBe(end.add({ hours: 5 }).toString())
  await app.db.transaction().execute(trx => renewLink(trx, 'own page', id, app.deps.now()))
  expect((await standing(id))!.ends_at).toBe(end.add({ hours: 5 }).toString())
  const open = await sendRequest(app)
  await app.db.transaction().execute(trx => renewLink(trx, 'own page', open.id, app.deps.now()))
  expect((await standing(open.id))!.ends_at).toBeNull()
})

test('the staff turn one off and make another; a repeat makes no third', async () => {
  const { id, number, ownPath } = await sendRequest(app)
  const first = (await viewOwnLink(app.deps, id, 'UTC'))!
  expect(first.path).toBe(ownPath)
  expect((await post(`/queue/${number}/own-link/end`)).status).toBe(303)
  expect((await post(`/queue/${number}/own-link/end`)).status).toBe(303)
  expect(await statusOf(ownPath)).toBe(410)
  expect(await viewOwnLink(app.deps, id, 'UTC')).toBeNull()
  for (const _ of ['once', 'twice'])
    expect((await post(`/queue/${number}/own-link`, { standing: '' })).status).toBe(303)
  const second = (await viewOwnLink(app.deps, id, 'UTC'))!
  expect(await statusOf(second.path)).toBe(200)
  expect(await statusOf(ownPath)).toBe(410)
  const verbs = await app.db
    .selectFrom('history')
    .select('verb')
    .where('quote_request_id', '=', id)
    .orderBy('id')
    .execute()
  expect(verbs.map(({ verb }) => verb)).toEqual(['sent', 'own link ended', 'own link made'])
  const page = (await owner.get(`/queue/${number}`)).text
  expect(page).toContain(second.address)
  expect(page).toContain('New link to their own page made')
})

test('two presses of the same page at once make one link', async () => {
  const { id } = await sendRequest(app)
  const stood = (await standing(id))!.id
  await Promise.all([1, 2, 3].map(() => makeOwnLink(app.deps, ownerId, id, stood)))
  const links = app.db.selectFrom('link').select('id').where('quote_request_id', '=', id)
  expect(await links.where('purpose', '=', 'own page').execute()).toHaveLength(2)
  await endOwnLink(app.deps, ownerId, id)
  await makeOwnLink(app.deps, ownerId, id, stood)
  expect(await standing(id)).toBeUndefined()
})

test('who tries one address after another is told to wait, but whoever has a link gets in', async () => {
  const { ownPath } = await sendRequest(app)
  const guess = (letter: string) => statusOf(`/${letter}/${'A'.repeat(42)}${letter}`)
  const answers = [await guess('r'), await guess('b'), await guess('p'), await guess('r'), await guess('b')]
  expect(answers).toEqual([404, 404, 404, 429, 429])
  expect(await statusOf(ownPath)).toBe(200)
  expect(await findEndedLink(app.db, 'own page', 'A'.repeat(43), app.deps.now())).toBeUndefined()
})
