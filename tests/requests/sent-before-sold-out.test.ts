import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { putInForce } from '../helpers/rate-tables.ts'
import { sendForm } from '../helpers/request-form.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

test('what was taken in is so when it is sent once more, though its finish was sold out in between', async () => {
  const fields = { 'beds.1.finish': 'compost', submissionKey: '11111111-2222-4333-8444-555555555555' }
  expect((await sendForm(app, fields)).status).toBe(303)
  await putInForce(app, table => ({
    ...table,
    finishes: table.finishes.map(one => (one.slug === 'compost' ? { ...one, soldOut: true } : one)),
  }))
  expect((await sendForm(app, fields)).status).toBe(303)
  expect(await app.db.selectFrom('quote_request').select('id').execute()).toHaveLength(1)
})
