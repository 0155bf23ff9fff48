import { afterAll, beforeAll, expect, test } from 'vitest'
import { acceptQuote, bookDay } from '../../src/bookings/booking.ts'
import { findNewestQuote } from '../../src/quotes/queries.ts'
import { findShares } from '../../src/quotes/stop-shares.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import { setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { confirmQuote, quoteRequest } from '../helpers/quotes.ts'
import { puttingIn } from '../people/putting-in.ts'

let app: TestApp
let owner: Browser
let at: ReturnType<typeof puttingIn>

beforeAll(async () => {
  app = await testApp()
  // Shredded wood at 80 to 120: 100 in the middle.
  owner = (await openBusiness(app, { 'rates.shredded-wood.0.upper': '120' })).owner
  at = puttingIn(app, owner)
})
afterAll(() => app.close())

/** A bed of the sheet, open and bare: 27 × 12 ft are 3 yd³ and 300.00, 9 × 12 ft 1 yd³ and 100.00. */
function bed(place: number, stop: number, length: string, more: Record<string, string> = {}) {
  const fields = {
    stop: String(stop),
    shape: 'rectangle',
    'sizes.length': `${length} ft`,
    'sizes.width': '12 ft',
  }
  const plain = { count: '1', planted: 'open', lying: 'bare', finish: 'shredded-wood', depth: '3 in' }
  return Object.fromEntries(
    Object.entries({ ...fields, ...plain, ...more }).map(([name, value]) => [`beds.${place}.${name}`, value]),
  )
}

const SHEET = {
  do: 'keep',
  measuredBy: 'tape',
  'stops.0.name': 'North entrance',
  'stops.0.note': 'Gate code 12',
  'stops.1.name': 'South entrance',
  'stops.1.spot': 'Behind the pool',
  ...bed(0, 0, '27', { told: '0' }),
  ...bed(1, 1, '9', { told: '1' }),
  ...bed(2, 1, '9'),
}

/** Put in by phone with two stops, and with its visit set. */
async function putIn(name: string, phone = '') {
  const row = await at.isIn({
    name,
    phone,
    street: '1 Way',
    postcode: '99999',
    beds: 'North entrance: 27 by 12\nSouth entrance: 9 by 12',
  })
  await setVisit(app.deps, 1, row.id, app.deps.now())
  return row
}

const keep = (number: string, sheet: Record<string, string>) =>
  at.post(`/queue/${number}/measurements`, sheet)

async function bedsAt(id: number) {
  const rows = await app.db
    .selectFrom('request_bed')
    .innerJoin('bed', 'bed.id', 'request_bed.bed_id')
    .leftJoin('stop', 'stop.id', 'bed.stop_id')
    .select(['bed.id', 'stop.name', 'stop.id as stop'])
    .where('quote_request_id', '=', id)
    .where('measured_position', 'is not', null)
    .orderBy('measured_position')
    .execute()
  return rows
}

test('a job of two stops is priced together, told by stop, accepted once, and the same next year', async () => {
  const { id, number } = await putIn('Cattail', '512 555 0931')
  expect((await keep(number, SHEET)).status).toBe(303)
  const rows = await bedsAt(id)
  expect(rows.map(({ name }) => name)).toEqual(['North entrance', 'South entrance', 'South entrance'])
  // Kept once more nothing is new.
  await keep(number, SHEET)
  expect(await bedsAt(id)).toEqual(rows)
  const preview = (await owner.get(`/queue/${number}/quote`)).text
  expect(preview).toContain('Stop by stop')
  const added = { 'added.0.description': 'Key deposit', 'added.0.amount': '10', 'added.0.reason': 'keys' }
  expect(
    (await confirmQuote(owner, number, { do: 'confirm', laborHours: '20', note: '', ...added })).status,
  ).toBe(303)
  const quote = (await findNewestQuote(app.db, id))!
  expect((await findShares(app.db, quote.id)).map(({ stop, amount }) => `${stop} ${amount}`)).toEqual([
    '0 300.00',
    '1 200.00',
  ])
  const bookingPath = (await findLinkPath(app.db, app.deps.secretKey, 'booking', id))!
  const words = wordsOf((await app.browser().get(bookingPath)).text)
  expect(words).toContain('North entrance$300.00')
  expect(words).toContain('South entranceBehind the pool$200.00')
  expect(words).toMatch(/For the whole job Key deposit\$10\.00 Total\$510\.00/)
  expect(words).not.toContain('Gate code 12')
  await acceptQuote(app.deps, id, { revision: 1, typedName: 'The board' })
  await bookDay(app.deps, id, '2026-03-10')
  const accepted = (await owner.get(`/queue/${number}/accepted`)).text
  expect(accepted).toContain('South entrance: $200.00')
  // 20 labor hours are more than a day.
  const days = (await owner.get('/days?from=2026-03-10')).text
  expect(days.split('Gate code 12').length - 1).toBeGreaterThan(1)
  const again = await at.isIn({ name: 'The same', phone: '5125550931' })
  const other = /name="other" value="(\d+)"/.exec((await owner.get(`/put-in/${again.number}`)).text)![1]!
  await at.post(`/put-in/${again.number}/same-beds`, { other })
  const next = await at.stored(again.number)
  expect(next.told.stops!.map(({ name, note, id: stop }) => [name, note, stop])).toEqual([
    ['North entrance', 'Gate code 12', rows[0]!.stop],
    ['South entrance', '', rows[1]!.stop],
  ])
  expect(next.told.beds.map(({ stop }) => stop)).toEqual([0, 1, 1])
  expect((await owner.get(`/places/${next.place_head}`)).text).toContain('South entrance')
})

test('the sheet copies a stop with its beds, adds one like the last, moves and leaves one out', async () => {
  const { id, number } = await putIn('Copies')
  const copied = await keep(number, { ...SHEET, do: 'copy-stop.1', 'stops.1.copies': '2' })
  expect(stopsOn(copied.text)).toEqual([
    'North entrance',
    'South entrance',
    'South entrance 2',
    'South entrance 3',
  ])
  expect(copied.text).toContain('name="beds.6.stop" value="3"')
  expect(copied.text).toMatch(/name="beds\.6\.sizes\.length"[^>]*value="9 ft"/)
  const added = await keep(number, { ...SHEET, do: 'add-stop' })
  expect(stopsOn(added.text)).toEqual(['North entrance', 'South entrance', 'South entrance 2'])
  expect(stopsOn((await keep(number, { ...SHEET, do: 'down-stop.0' })).text)).toEqual([
    'South entrance',
    'North entrance',
  ])
  const more = await keep(number, { ...SHEET, do: 'add-bed.0' })
  expect(more.text).toContain('name="beds.3.stop" value="0"')
  expect((await keep(number, { ...SHEET, do: 'copy-stop.1', 'stops.1.copies': '59' })).text).toContain(
    'A job can have 60 stops.',
  )
  await keep(number, { ...SHEET, 'stops.0.drop': 'yes' })
  expect((await bedsAt(id)).map(({ name }) => name)).toEqual(['South entrance', 'South entrance'])
  // Nothing of it has to be at a stop again.
  const found = (
    await app.db.selectFrom('quote_request').select('measured').where('id', '=', id).executeTakeFirstOrThrow()
  ).measured!
  expect(found.stops!.map(({ name }) => name)).toEqual(['South entrance'])
})

test('the sheet refuses stops without a name, a bed or measure beside their fields', async () => {
  const { number } = await putIn('Wrong')
  const wrong = {
    'stops.1.name': '',
    'stops.2.name': 'north  entrance',
    'stops.3.name': 'West',
    'stops.4.name': 'East',
    'stops.4.note': 'n'.repeat(501),
    ...bed(3, 4, '9'),
  }
  const page = await keep(number, { ...SHEET, ...wrong, ...bed(2, 2, '9') })
  expect(page.status).toBe(422)
  for (const words of [
    'Name this stop.',
    'Another stop has this name.',
    'Add a bed to this stop, or leave the stop out.',
    'Keep the note under 500 characters.',
  ])
    expect(page.text).toContain(words)
})

test('stops are named and sorted before the visit, by one page at a time, and not once there is a price', async () => {
  const { id, number, told } = await putIn('Names')
  const path = `/queue/${number}/stops`
  const { seen } = seenOn((await owner.get(path)).text)
  const form = {
    seen,
    ...{
      'stops.0.was': '0',
      'stops.0.place': '2',
      'stops.0.placeWas': '1',
      'stops.0.name': 'Main gate',
      'stops.0.note': 'Ring first',
    },
    ...{
      'stops.1.was': '1',
      'stops.1.place': '2',
      'stops.1.placeWas': '2',
      'stops.1.name': 'South entrance',
    },
  }
  expect((await at.post(path, { ...form, 'stops.1.place': '1' })).status).toBe(303)
  const row = await at.stored(number)
  expect(row.told.stops!.map(({ name, note, id: stop }) => [name, note, stop])).toEqual([
    ['South entrance', '', told.stops![1]!.id],
    ['Main gate', 'Ring first', told.stops![0]!.id],
  ])
  // Each bed went with its stop, also as it was understood.
  const lengths = row.understood!.beds.map(({ sizes }) => sizes.length!.value)
  expect([row.told.beds.map(({ sizes }) => sizes.length), lengths]).toEqual([
    ['9 by 12', '27 by 12'],
    ['9', '27'],
  ])
  const stale = await at.post(path, { ...form, 'stops.0.note': 'Typed too late' })
  expect([stale.status, stale.text.includes('Somebody else changed the stops meanwhile.')]).toEqual([
    409,
    true,
  ])
  expect(stale.text).toContain('Typed too late')
  await app.db.updateTable('quote_request').set({ stage: 'new' }).where('id', '=', id).execute()
  await quoteRequest(app, number)
  for (const sent of [
    { ...form, seen: 'older' },
    { 'stops.0.was': '0', 'stops.0.name': 'X' },
  ]) {
    const { status, text } = await at.post(path, sent)
    expect(status).toBe(409)
    for (const words of ['There is a price by now.', 'South entrance', 'Main gate'])
      expect(text).toContain(words)
  }
  expect((await owner.get(path)).text).toContain('they stay as they are')
})

const stopsOn = (page: string) =>
  [...page.matchAll(/name="stops\.\d+\.name"[^>]*value="([^"]*)"/g)].map(([, name]) => name)
const seenOn = (page: string) => ({ seen: /name="seen" value="(\w+)"/.exec(page)![1]! })
const wordsOf = (page: string) => page.replace(/<[^>]*>/g, '').replace(/\s+/g, ' ')
