import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { bedTold, sendRequest } from '../helpers/requests.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
})
afterAll(() => app.close())

test('before set-up the form says kindly that it is not open yet', async () => {
  const answer = await app.browser().get('/')
  expect(answer.status).toBe(200)
  expect(answer.text).toContain('Not open yet')
  expect(answer.text).not.toContain('<form')
})

test('before set-up other programs hear 503, in JSON', async () => {
  const asked = await app
    .browser()
    .post('/ballpark')
    .send({ beds: [bedTold()], extras: [], postcode: '' })
  const finishes = await app.browser().get('/finishes')
  for (const answer of [asked, finishes]) {
    expect(answer.status).toBe(503)
    expect(answer.body.errors[0].message).toMatch(/can’t get price ranges here yet/)
  }
})

test('before set-up nothing can be sent', async () => {
  const answer = await app.browser().post('/requests').type('form').send({ name: 'Carol Reyes' })
  expect(answer.status).toBe(303)
  expect(answer.headers.location).toBe('/')
  await expect(sendRequest(app)).rejects.toMatchObject({ status: 503 })
  expect(await app.db.selectFrom('quote_request').select('id').execute()).toEqual([])
})
