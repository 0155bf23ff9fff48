import { afterAll, beforeAll, expect, test } from 'vitest'
import { findNewestQuote } from '../../src/quotes/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
})
afterAll(() => app.close())

test('the shares of a line add up to it, or the database refuses them', async () => {
  const { id } = await sendRequest(app)
  const { number } = await app.db
    .selectFrom('quote_request')
    .select('number')
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  await quoteRequest(app, number)
  const quote = (await findNewestQuote(app.db, id))!
  const [line] = quote.lines
  const share = { quote_id: quote.id, position: line!.position, stop: 0, amount: '0.01' }
  await expect(app.db.insertInto('quote_line_share').values(share).execute()).rejects.toThrow(/add up/)
  const page = (await owner.get(`/queue/${number}`)).text
  for (const words of ['Stop by stop', '/stops', 'class="stop"']) expect(page).not.toContain(words)
})

test('a stranger’s form knows nothing of stops', async () => {
  const sent = await sendRequest(app)
  const { told } = await app.db
    .selectFrom('quote_request')
    .select('told')
    .where('id', '=', sent.id)
    .executeTakeFirstOrThrow()
  expect(told.stops).toBeUndefined()
  const page = await app
    .browser()
    .post('/ballpark')
    .type('form')
    .send({ 'stops.0.name': 'North', 'beds.0.stop': '0', 'beds.0.shape': 'rectangle' })
  expect(page.text).not.toContain('North')
})
