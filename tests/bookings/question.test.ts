import { afterAll, beforeAll, expect, test } from 'vitest'
import { endBookingLink, makeBookingLink } from '../../src/quotes/booking-link.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptForm, post, quotedRequest, standing } from '../helpers/bookings.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterAll(() => app.close())

test('a question lands on the request as news and tells the owner, once', async () => {
  const { id, number, path } = await quotedRequest(app)
  const question = 'Do you take the old mulch <away>?'
  await post(app, `${path}/question`, { question }).expect(303)
  await post(app, `${path}/question`, { question }).expect(303)
  const { verbs, mails } = await standing(app, id)
  expect(verbs.filter(verb => verb === 'question asked')).toHaveLength(1)
  expect(mails.filter(kind => kind === 'question-staff')).toHaveLength(1)
  expect((await owner.get(`/queue/${number}`)).text).toContain(
    'Asked: Do you take the old mulch &lt;away&gt;?',
  )
  expect((await owner.get('/queue')).text).toContain('Asked: Do you take')
})

test('an empty question and one that is too long are refused beside the field, and kept', async () => {
  const { path } = await quotedRequest(app)
  expect((await post(app, `${path}/question`, {}).expect(422)).text).toContain('href="#question"')
  const long = 'why '.repeat(300)
  expect((await post(app, `${path}/question`, { question: long }).expect(422)).text).toContain(long.trim())
})

test('the link that reads shows the price and opens nothing that changes', async () => {
  const { id, path } = await quotedRequest(app)
  const reading = (await findLinkPath(app.db, app.deps.secretKey, 'reading', id))!
  expect((await app.browser().get(path)).text).toContain(reading)
  const page = await app.browser().get(reading).expect(200)
  expect(page.text).toContain('Only the person we sent it to can accept it')
  expect(page.text).not.toContain('/b/')
  expect(page.text).not.toMatch(/<form/)
  const asBooking = reading.replace('/p/', '/b/')
  await post(app, `${asBooking}/accept`, acceptForm()).expect(404)
  await app.browser().get(path.replace('/b/', '/p/')).expect(404)
  expect((await standing(app, id)).accepted).toEqual([])
})

test('a link that was replaced or turned off says so with whom to call, and tells nothing else', async () => {
  const { id, path } = await quotedRequest(app)
  await makeBookingLink(app.deps, 1, id)
  const replaced = await app.browser().get(path).expect(410)
  expect(replaced.text).toContain('We sent a newer link')
  await endBookingLink(app.deps, 1, id)
  const off = await app.browser().get(path).expect(410)
  expect(off.text).toContain('We turned this link off')
  for (const { text } of [replaced, off]) {
    expect(text).toContain('(512) 555-0100')
    expect(text).toContain('Ask for a price again')
    expect(text).not.toMatch(/Carol|Fern Lane/)
  }
  await post(app, `${path}/accept`, acceptForm()).expect(404)
})
