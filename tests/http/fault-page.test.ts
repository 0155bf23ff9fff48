import { afterEach, beforeEach, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'

let app: TestApp
beforeEach(async () => {
  app = await testApp()
})
afterEach(() => app.close())

test('a fault of ours shows a number to give, and nothing of what went wrong', async () => {
  const { owner } = await openBusiness(app)
  await app.store.executeSql('alter table rate_table rename to rate_table_seekmenot')
  const answer = await owner.get('/rates')
  expect(answer.status).toBe(500)
  expect(answer.type).toBe('text/html')
  expect(answer.text).not.toMatch(/rate_table|seekmenot|relation|\.ts\b|node_modules/)
  const id = /[0-9a-f]{8}-[0-9a-f-]{27}/.exec(answer.text)?.[0]
  expect(id).toBeDefined()
  expect(app.log.some(line => line.includes(id!) && line.includes('42P01'))).toBe(true)
})

test('a fault of the database is told without asking it again, and where that must be, in a plain text', async () => {
  await app.store.executeSql('alter table business rename to business_seekmenot')
  for (const [path, status, type] of [
    ['/sign-in', 500, 'text/html'],
    ['/nowhere', 404, 'text/plain'],
  ] as const) {
    const answer = await app.browser().get(path)
    expect([path, answer.status, answer.type]).toEqual([path, status, type])
    expect(answer.text).not.toMatch(/business_|seekmenot|relation|\.ts\b/)
  }
})
