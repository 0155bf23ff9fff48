import { sql } from 'kysely'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { acceptQuote, bookDay } from '../../src/bookings/booking.ts'
import { findAcceptedQuote, findNewestQuote } from '../../src/quotes/queries.ts'
import { findShares } from '../../src/quotes/stop-shares.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptForm, OFFERED, offeredRequest, post, standing } from '../helpers/bookings.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { confirmQuote, quoteRequest } from '../helpers/quotes.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'
import { linesOf } from '../quotes/quoting.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

// 27 ft × 12 ft × 3 in = 3 yd³, at 90 in shredded wood 270.00, at 115 in bark 345.00; 2 in deep are 2 yd³. Its edge is
// 78 ft, at 2.00 156.00. By the set-up form a yd³ takes a labor hour.
const beds = told(bedTold({ sizes: { length: '27 ft', width: '12 ft' } }))
const FORM = {
  do: 'confirm',
  laborHours: '3',
  note: '',
  'picks.0.bed': '',
  'picks.0.finish': 'bark-nuggets',
  'picks.0.depth': '',
  'picks.1.bed': '',
  'picks.1.finish': '',
  'picks.1.depth': '2 in',
  'addOns.0.bed': '',
  'addOns.0.extra': 'edging',
}

const wordsOf = (html: string) => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')
const picking = (picks: string, instead = {}) => acceptForm({ picks, day: 'none', ...instead })

test('the owner offers choices beside a price, and sees what each does', async () => {
  const { id, number } = await sendRequest(app, { told: beds })
  const looked = await owner
    .post(`/queue/${number}/quote`)
    .type('form')
    .send({ ...FORM, do: 'again', revision: '1' })
  const words = wordsOf(looked.text)
  expect(words).toContain('Material, Pine bark nuggets: +$75.00.')
  expect(words).toContain('Depth, 2 in: -$90.00.')
  expect(words).toMatch(/Cut a fresh edge[^:]*: \+\$156\.00\./)
  await confirmQuote(owner, number, FORM)
  expect((await findNewestQuote(app.db, id))!.choices).toMatchObject(OFFERED)
  const page = await owner.get(`/queue/${number}/quote`)
  expect(page.text).toMatch(/<option value="bark-nuggets" selected>/)
})

test('every combination is priced as one job when it is offered, and stays so when rates change', async () => {
  const { id } = await offeredRequest(app, { told: beds })
  const quote = (await findNewestQuote(app.db, id))!
  const rows = await app.db
    .selectFrom('quote_variant')
    .select(['picks', 'total'])
    .where('quote_id', '=', quote.id)
    .orderBy('picks')
    .execute()
  expect(rows.map(({ picks, total }) => `${picks} ${total}`)).toEqual([
    '00-0 270.00',
    '00-1 426.00',
    '01-0 180.00',
    '01-1 336.00',
    '10-0 345.00',
    '10-1 501.00',
    // Not 270 + 75 - 90.
    '11-0 230.00',
    '11-1 386.00',
  ])
  const change = app.db.updateTable('quote_variant').set({ total: '1.00' }).where('quote_id', '=', quote.id)
  await expect(change.execute()).rejects.toThrow()
})

test('the page shows each choice with its difference, and the total follows without a script', async () => {
  const { path } = await offeredRequest(app, { told: beds })
  const first = wordsOf((await app.browser().get(path).expect(200)).text)
  expect(first).toContain('Pine bark nuggets $75.00 more')
  expect(first).toContain('2 in $90.00 less')
  expect(first).toContain('Show me the total')
  const picked = await app.browser().get(`${path}?choose=yes&pick.0=1&pick.1=0&add.0=yes`).expect(200)
  expect(wordsOf(picked.text)).toContain('Total $501.00')
  // By then 2 in are a yd³ of bark less.
  expect(wordsOf(picked.text)).toContain('2 in $115.00 less')
  expect(picked.text).toContain('Pine bark nuggets, delivered and spread')
  const spanish = await app.browser().get(`${path}?picks=10-0`).set('accept-language', 'es').expect(200)
  expect(wordsOf(spanish.text)).toContain('Ver el total')
  for (const query of ['picks=777', 'picks=10-0&picks=01-0', 'pick.0=1&pick.0=1', 'add.0[]=yes']) {
    const odd = await app.browser().get(`${path}?${query}`).expect(200)
    expect(wordsOf(odd.text)).toContain('Total $270.00')
  }
})

test('what is picked is accepted, in the words of what was accepted, with its beds, lines and hours', async () => {
  const { id, number, path } = await offeredRequest(app, { told: beds })
  const browser = app.browser()
  await browser.get(`${path}/accept`).expect(303)
  const form = await browser.get(`${path}/accept?choose=yes&pick.0=1&pick.1=1&add.0=yes`).expect(200)
  expect(form.text).toContain('name="picks" value="11-1"')
  expect(form.text).toContain('$386.00')
  const check = await post(app, `${path}/check`, picking('11-1')).expect(200)
  expect(wordsOf(check.text)).toContain('Material: Pine bark nuggets')
  const digest = /name="digest" value="(\w+)"/.exec(check.text)![1]!
  await post(app, `${path}/accept`, picking('11-1', { digest })).expect(303)
  const quote = (await findAcceptedQuote(app.db, id))!
  expect(await linesOf(app, id)).toEqual(['finish 230.00', 'extra 156.00', '386.00'])
  expect(quote).toMatchObject({ picked: '11-1', job: { beds: [{ finish: 'bark-nuggets', depth: '2' }] } })
  expect(quote.understood!.beds[0]).toMatchObject({
    finish: 'bark-nuggets',
    depth: { value: '2', unit: 'in' },
  })
  const { text } = await app.db
    .selectFrom('accepted_text')
    .select('text')
    .where('quote_id', '=', quote.id)
    .executeTakeFirstOrThrow()
  expect(text).toContain('Material: Pine bark nuggets\nDepth: 2 in\nAdded: ')
  expect(text).toContain('Total: $386.00')
  const page = wordsOf((await owner.get(`/queue/${number}`)).text)
  expect(page).toContain('They picked: Material: Pine bark nuggets; Depth: 2 in; Added:')
  expect(page).toContain('Beds as agreed')
  expect(page).toContain('Pine bark nuggets, 2 in deep')
})

test('accepted again it is one acceptance, and other picks are refused kindly', async () => {
  const { id, path } = await offeredRequest(app, { told: beds })
  await post(app, `${path}/accept`, picking('01-0')).expect(303)
  await post(app, `${path}/accept`, picking('01-0')).expect(303)
  const other = await post(app, `${path}/accept`, picking('10-0')).expect(409)
  expect(wordsOf(other.text)).toContain('already accepted, with other choices')
  expect((await standing(app, id)).accepted).toHaveLength(1)
  expect(await linesOf(app, id)).toEqual(['finish 180.00', '180.00'])
})

test('picks that were never offered, and none at all, accept nothing', async () => {
  const { id, path } = await offeredRequest(app, { told: beds })
  for (const picks of ['1-0', '11-11', 'x', '11-1-1']) {
    const page = await post(app, `${path}/accept`, picking(picks)).expect(409)
    expect(wordsOf(page.text)).toContain('Please pick again')
  }
  const silent = acceptQuote(app.deps, id, { revision: 1, typedName: 'Carol Reyes' })
  await expect(silent).rejects.toMatchObject({ key: 'choose.again' })
  expect((await standing(app, id)).accepted).toEqual([])
})

test('the database accepts nothing but what was picked of what was offered', async () => {
  const { id } = await offeredRequest(app, { told: beds })
  const { id: quoteId } = (await findNewestQuote(app.db, id))!
  const set = (values: string) =>
    sql`update quote set ${sql.raw(values)} where id = ${quoteId}`.execute(app.db)
  await expect(set(`picked = '11-1'`)).rejects.toThrow('kept as they were made')
  await expect(set(`picked = '11-1', total = 5`)).rejects.toThrow('kept as they were made')
  const at = app.deps.now().toString()
  const silent = app.db
    .insertInto('acceptance')
    .values({ quote_id: quoteId, typed_name: 'X', accepted_at: at })
  await expect(silent.execute()).rejects.toThrow('with what was picked')
  await expect(app.db.deleteFrom('quote_line').where('quote_id', '=', quoteId).execute()).rejects.toThrow()
})

test('days are offered by the hours of what was picked, and the job is booked with them', async () => {
  const { id, path } = await offeredRequest(app, { told: beds })
  await post(app, `${path}/accept`, picking('01-0', { day: '2026-03-04' })).expect(303)
  expect((await standing(app, id)).days).toEqual([{ day: '2026-03-04', hours: '2.00' }])
})

test('a change after that starts from what was picked', async () => {
  const { id, number, path } = await offeredRequest(app, { told: beds })
  await acceptQuote(app.deps, id, { revision: 1, typedName: 'Carol Reyes', picks: '10-0' })
  await bookDay(app.deps, id, '2026-03-05')
  const form = await owner.get(`/queue/${number}/quote`).expect(200)
  expect(wordsOf(form.text)).toContain('Pine bark nuggets, delivered and spread')
  expect(form.text).not.toMatch(/<option value="bark-nuggets" selected>/)
  await quoteRequest(app, number, { added: [{ description: 'A gate', amount: '40.00', reason: 'found' }] })
  expect(await linesOf(app, id)).toEqual(['finish 345.00', 'other 40.00', '385.00'])
  const page = wordsOf((await app.browser().get(path)).text)
  expect(page).toContain('A gate Before: nothing. Now: $40.00. +$40.00')
})

test('of a job with stops each has its share of what was picked', async () => {
  const names = ['North', 'South'].map(name => ({ name, note: '', spot: '' }))
  const sizes = [27, 9].map((length, stop) => ({ stop, sizes: { length: `${length} ft`, width: '12 ft' } }))
  const stops = { ...told(...sizes.map(bedTold)), stops: names }
  const { id, path } = await offeredRequest(app, { told: stops })
  const byStop = async () => wordsOf((await app.browser().get(`${path}?pick.0=1`)).text)
  // 3 and 1 yd³ at 115 instead of 90.
  const picked = 'North $345.00 Pine bark nuggets, delivered and spread $345.00 South $115.00'
  expect(await byStop()).toContain(picked)
  expect(await findShares(app.db, (await findNewestQuote(app.db, id))!.id)).toEqual([])
  await acceptQuote(app.deps, id, { revision: 1, typedName: 'Carol Reyes', picks: '10-0' })
  expect(
    (await findShares(app.db, (await findNewestQuote(app.db, id))!.id)).map(({ amount }) => amount),
  ).toEqual(['345.00', '115.00'])
  expect(await byStop()).toContain(picked)
})

test('what the owner changed by hand is changed by as much in every combination', async () => {
  const { id, number } = await sendRequest(app, { told: beds })
  const own = [{ amount: '300.00', reason: 'a steep slope' }]
  await quoteRequest(app, number, { choices: OFFERED, amounts: own, laborHours: '3.5' })
  const quote = (await findNewestQuote(app.db, id))!
  await acceptQuote(app.deps, id, { revision: 1, typedName: 'Carol Reyes', picks: '11-0' })
  // 30 more than worked out, and half an hour.
  expect(await linesOf(app, id)).toEqual(['finish 260.00', '260.00'])
  expect((await findNewestQuote(app.db, id))!).toMatchObject({ id: quote.id, labor_hours: '2.50' })
})

test.each([
  [{ 'picks.0.finish': 'shredded-wood' }, 'The price has that already.'],
  [{ 'picks.1.depth': 'deep' }, 'Give a depth, such as 2 in.'],
  [{ 'picks.0.bed': '7' }, 'That bed isn’t there anymore.'],
  [{ 'picks.0.finish': 'gold' }, 'That material isn’t in your rates anymore.'],
  [{ 'picks.0.depth': '2' }, 'The other choice changes the depth of that bed, too.'],
  [{ 'addOns.1.bed': '', 'addOns.1.extra': 'edging' }, 'You offer that above already.'],
])('%j is refused beside its field', async (instead, sentence) => {
  const { id, number } = await sendRequest(app, { told: beds })
  const page = await confirmQuote(owner, number, { ...FORM, ...instead })
  expect(page.status).toBe(422)
  expect(page.text).toContain(sentence)
  expect(await findNewestQuote(app.db, id)).toBeUndefined()
})
