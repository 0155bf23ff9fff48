import { afterEach, beforeEach, expect, test } from 'vitest'
import { siteExtras } from '../../src/estimate/starter/starter-extras.ts'
import { keepMeasurements, setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { putInForce } from '../helpers/rate-tables.ts'
import { sendBy } from '../helpers/request-form.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

let app: TestApp

beforeEach(async () => {
  app = await testApp()
  await openBusiness(app)
  const priced = siteExtras('us').map(extra => ({ ...extra, lower: '85', upper: '110' }))
  await putInForce(app, table => ({ ...table, extras: [...table.extras, ...priced] }))
})
afterEach(() => app.close())

const ask = (body: object) => app.browser().post('/ballpark').send(body)

test('what only whoever measures may add is refused of homeowners, and not named to them', async () => {
  for (const [field, body] of [
    ['extras.0', { ...told(), extras: ['old-out'] }],
    ['beds.0.extras.0', told(bedTold({ extras: ['old-out'] }))],
  ] as const) {
    const answer = await ask(body)
    expect([answer.status, answer.body.errors[0].field]).toEqual([422, field])
    expect(answer.text).toContain('edging')
    expect(answer.text).not.toContain('old-out')
  }
  const sent = await sendBy(app, { 'extras[]': 'old-out' })
  expect(sent.status).toBe(422)
  expect(await app.db.selectFrom('quote_request').select('id').execute()).toEqual([])
  const form = await app.browser().get('/')
  for (const { slug, name } of siteExtras('us')) {
    expect(form.text).not.toContain(`value="${slug}"`)
    expect(form.text).not.toContain(name.en)
  }
})

test('the sheet takes it, and the price names it', async () => {
  const { id, number } = await sendRequest(app)
  await setVisit(app.deps, 1, id, app.deps.now())
  await keepMeasurements(app.deps, 1, id, {
    beds: [{ ...bedTold({ lying: 'thick' }), toldBed: 0 }],
    extras: ['old-out'],
    postcode: '',
  })
  const { bookingPath } = await quoteRequest(app, number)
  const page = await app.browser().get(bookingPath)
  expect(page.text).toContain(siteExtras('us').find(({ slug }) => slug === 'old-out')!.name.en)
})
