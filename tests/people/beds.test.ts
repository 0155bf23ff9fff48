import { sql } from 'kysely'
import { afterAll, beforeAll, expect, test } from 'vitest'
import type { Told } from '../../src/estimate/job/bed.ts'
import { fillPeople } from '../../src/fill-people.ts'
import { keepToldBeds } from '../../src/places/beds.ts'
import { keepMeasurements, setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

const wide = (width: string) => bedTold({ sizes: { length: '20 ft', width } })

async function bedsOf(requestId: number) {
  return app.db
    .selectFrom('request_bed')
    .innerJoin('bed', 'bed.id', 'request_bed.bed_id')
    .select(['bed.id', 'bed.source', 'bed.told', 'bed.measured', 'bed.measured_understood', 'bed.gone_at'])
    .select(['bed.understood', 'told_position', 'measured_position', 'bed.place_id'])
    .where('quote_request_id', '=', requestId)
    .orderBy('bed.id')
    .execute()
}

const widthOf = (bed: { sizes: Record<string, string> } | null) => bed?.sizes.width

async function measure(id: number, measured: Told) {
  await keepMeasurements(app.deps, 1, id, measured)
}

test('beds of a request are rows of its place, each as told and as understood', async () => {
  const { id } = await sendRequest(app, { told: told(wide('5 ft'), wide('about 6')) })
  const [five, six] = await bedsOf(id)
  expect([five!.source, five!.told_position, widthOf(five!.told)]).toEqual(['homeowner', 0, '5 ft'])
  expect([six!.told_position, widthOf(six!.told), six!.measured]).toEqual([1, 'about 6', null])
  expect(six!.understood!.beds.map(({ sizes }) => sizes.width)).toEqual([
    { value: '6', unit: 'ft', about: true },
  ])
})

test('measured, and measured again, a bed keeps its id; one found on site is new, one left out is gone', async () => {
  const { id } = await sendRequest(app, { told: told(wide('5 ft'), wide('6 ft')) })
  const before = (await bedsOf(id)).map(bed => bed.id)
  await setVisit(app.deps, 1, id, app.deps.now())
  const first = told({ ...wide('7 ft'), toldBed: null }, { ...wide('6 ft 6'), toldBed: 1 })
  await measure(id, first)
  const [five, six, found] = await bedsOf(id)
  expect([five!.id, six!.id]).toEqual(before)
  expect([five!.gone_at === null, five!.measured, five!.measured_position]).toEqual([false, null, null])
  expect([widthOf(six!.told), widthOf(six!.measured), six!.measured_position]).toEqual(['6 ft', '6 ft 6', 1])
  expect(six!.measured_understood!.beds[0]!.sizes.width).toEqual({ value: '6.5', unit: 'ft' })
  expect([found!.source, found!.told_position, found!.measured_position]).toEqual(['visit', null, 0])
  const again = told(
    { ...wide('5 ft'), toldBed: 0 },
    { ...wide('6 ft'), toldBed: 1 },
    { ...wide('8 ft'), toldBed: null },
  )
  await measure(id, again)
  const after = await bedsOf(id)
  expect(after.map(bed => bed.id)).toEqual([five, six, found].map(bed => bed!.id))
  expect(after.map(bed => [widthOf(bed.measured), bed.measured_position, bed.gone_at])).toEqual([
    ['5 ft', 0, null],
    ['6 ft', 1, null],
    ['8 ft', 2, null],
  ])
})

test('a bed that another request tells of too isn’t gone when one leaves it out', async () => {
  const { id } = await sendRequest(app, { told: told(wide('5 ft'), wide('6 ft')) })
  const [five] = await bedsOf(id)
  const next = await sendRequest(app, { told: told(wide('9 ft')) })
  await app.db.transaction().execute(async trx => {
    await trx.deleteFrom('request_bed').where('quote_request_id', '=', next.id).execute()
    const beds = { requestId: next.id, placeId: five!.place_id, told: told(wide('5 ft')), understood: null }
    await keepToldBeds(trx, beds, 'staff', app.deps.now(), [five!.id])
  })
  expect((await bedsOf(next.id)).map(bed => bed.id)).toEqual([five!.id])
  await setVisit(app.deps, 1, id, app.deps.now())
  await measure(id, told({ ...wide('6 ft'), toldBed: 1 }))
  expect((await bedsOf(id)).map(bed => bed.gone_at)).toEqual([null, null])
})

test('what earlier releases stored gets its keys and its beds at the start, once', async () => {
  const { id } = await sendRequest(app, { told: told(wide('5 ft'), wide('6 ft')) })
  await setVisit(app.deps, 1, id, app.deps.now())
  await measure(id, told({ ...wide('6 ft'), toldBed: 1 }, { ...wide('7 ft'), toldBed: null }))
  await fillPeople(app.db)
  const before = await bedsOf(id)
  const keys = () =>
    sql`select phone_key, email_key, street_key, postcode_key, customer.keyed_as from quote_request
      join customer on customer.id = customer_id join place on place.id = place_id where quote_request.id = ${id}`
      .execute(app.db)
      .then(({ rows }) => rows)
  const keyed = await keys()
  expect(keyed).toEqual([
    {
      phone_key: '+15550100199',
      email_key: 'carol@example.com',
      street_key: '12 fern ln',
      postcode_key: '43004',
      keyed_as: '1 US',
    },
  ])
  await app.db.deleteFrom('request_bed').where('quote_request_id', '=', id).execute()
  await app.db
    .deleteFrom('bed')
    .where(
      'id',
      'in',
      before.map(bed => bed.id),
    )
    .execute()
  await sql`update customer set phone_key = null, email_key = null, keyed_as = ''`.execute(app.db)
  await sql`update place set street_key = null, postcode_key = '', keyed_as = ''`.execute(app.db)
  const rows = await app.db
    .selectFrom('customer')
    .select(eb => eb.fn.countAll<number>().as('count'))
    .executeTakeFirstOrThrow()
  const filled = await Promise.all([fillPeople(app.db), fillPeople(app.db)])
  expect(filled[0]! + filled[1]!).toBe(2 * rows.count + 1)
  expect(await keys()).toEqual(keyed)
  const numberless = (beds: typeof before) => beds.map(({ id: _, ...bed }) => bed)
  expect(numberless(await bedsOf(id))).toEqual(numberless(before))
  expect(await fillPeople(app.db)).toBe(0)
})

test('the place’s page shows each bed as it is known last, and where that is from', async () => {
  const { id, number } = await sendRequest(app, {
    told: told(wide('5 ft'), wide('6 ft')),
    phone: '',
    street: '3 Quince Way',
  })
  await setVisit(app.deps, 1, id, app.deps.now())
  await measure(id, told({ ...wide('6 ft 6'), toldBed: 1 }))
  const [bed] = await bedsOf(id)
  const page = (await owner.get(`/places/${bed!.place_id}`)).text
  expect(page).toContain(`Beds of <a href="/queue/${number}">`)
  expect(page).toContain('measured Mar 2, 2026')
  expect(page).toContain('Rectangle, 20 ft × 6 ft 6 in')
  expect(page).not.toContain('20 ft × 5 ft')
})
