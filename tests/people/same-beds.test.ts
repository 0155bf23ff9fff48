import { afterAll, beforeAll, expect, test } from 'vitest'
import { keepMeasurements, setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'
import { puttingIn } from './putting-in.ts'

let app: TestApp
let owner: Awaited<ReturnType<typeof openBusiness>>['owner']
let at: ReturnType<typeof puttingIn>

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  at = puttingIn(app, owner)
})
afterAll(() => app.close())

test('“the same as last year” takes a known customer’s beds as they were measured, with their ids', async () => {
  const beds = told(bedTold({ sizes: { length: '20 paces', width: '5 ft' } }), bedTold({ finish: 'stone' }))
  const last = await sendRequest(app, {
    name: 'Hazel',
    phone: '(512) 555-0905',
    email: '',
    told: { ...beds, extras: ['edging'] },
  })
  await setVisit(app.deps, 1, last.id, app.deps.now())
  const found = [{ ...bedTold({ sizes: { length: '44 ft 3', width: '5 ft' } }), toldBed: 0 }]
  await keepMeasurements(app.deps, 1, last.id, { ...told(...found), extras: ['edging'] })
  const { id, number } = await at.isIn({ name: 'Mrs. U', phone: '+1 512 555 0905' })
  const page = (await owner.get(`/put-in/${number}`)).text
  expect(page).toContain(`Yes, with the same beds as ${last.number}`)
  const other = /name="other" value="(\d+)"/.exec(page)![1]!
  const both = await Promise.all([1, 2].map(() => at.post(`/put-in/${number}/same-beds`, { other })))
  expect(both.map(({ status }) => status)).toEqual([303, 303])
  const row = await at.stored(number)
  expect(row.told).toEqual({
    beds: [bedTold({ sizes: { length: '44 ft 3', width: '5 ft' } })],
    extras: ['edging'],
    postcode: '43004',
  })
  expect(row.customer_head).toBe(Number(other))
  expect(row.low).not.toBeNull()
  // No address was told: the beds’ own is known, to the staff alone.
  const address = 'Known address: <a href="/places/'
  expect((await owner.get(`/queue/${number}`)).text).toContain(address)
  expect((await owner.get(`/places/${row.place_head}`)).text).toContain('12 Fern Lane, 43004')
  const bedOf = (request: number) =>
    app.db
      .selectFrom('request_bed')
      .select('bed_id')
      .where('quote_request_id', '=', request)
      .orderBy('bed_id')
      .execute()
  expect(await bedOf(id)).toEqual((await bedOf(last.id)).slice(0, 1))
  // The next time it is known already who it is.
  const again = await at.isIn({ name: 'Hazel', phone: '512-555-0905' })
  await at.post(`/customers/${again.customer_id}/same`, {
    other,
    decision: 'same',
    number: again.number,
    back: 'put-in',
  })
  expect((await owner.get(`/put-in/${again.number}`)).text).toContain(`Same beds as ${number}`)
  expect((await at.post(`/put-in/${again.number}/same-beds`, {})).status).toBe(303)
  expect(await bedOf(again.id)).toEqual(await bedOf(id))
})

test('who has no beds known gets none', async () => {
  const { number } = await at.isIn({ name: 'Nobody before' })
  const answer = await at.post(`/put-in/${number}/same-beds`, {})
  expect(answer.status).toBe(422)
  expect(answer.text).toContain('No beds are known of them.')
  expect((await at.post('/put-in/26-9999/same-beds', {})).status).toBe(404)
})
