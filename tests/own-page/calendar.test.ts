import { afterAll, beforeAll, expect, test } from 'vitest'
import { callOffVisit, setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { readCalendar } from '../helpers/calendars.ts'
import { openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

test('whoever has no mail address fetches the visit from the page, in the language of the page', async () => {
  const { id, number, ownPath } = await sendRequest(app, { email: '' })
  const browser = app.browser()
  const fetch = () => browser.get(`${ownPath}/calendar.ics`)
  expect((await fetch()).headers.location).toBe(ownPath)
  expect((await browser.get(ownPath)).text).not.toContain('calendar.ics')
  await setVisit(app.deps, 1, id, Temporal.Instant.from('2026-03-09T20:30:00Z'))
  expect((await browser.get(ownPath)).text).toContain(`href="${ownPath}/calendar.ics"`)
  const answer = await fetch()
  expect(answer.headers['content-type']).toBe('text/calendar; charset=utf-8')
  expect(readCalendar(answer.text)).toMatchObject({
    method: 'PUBLISH',
    entries: [
      { uid: `visit-${number}@localhost`, location: '12 Fern Lane, 43004', start: '2026-03-09T20:30:00Z' },
    ],
  })
  await browser.get(`${ownPath}?language=es`)
  expect((await fetch()).text).toContain('visita para medir')
  await callOffVisit(app.deps, 1, id)
  expect((await fetch()).status).toBe(303)
})
