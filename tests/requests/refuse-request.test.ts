import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { BEDS, sendBy, sendForm } from '../helpers/request-form.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

const send = (fields = {}) => sendBy(app, fields)
const allRequests = () => app.db.selectFrom('quote_request').select('id').execute()

test.each([
  ['name', ' ', 'name'],
  ['street', '', 'street'],
  ['phone', '12', 'phone'],
  ['phone', 'ring me', 'phone'],
  ['email', 'carol at example', 'email'],
  ['postcode', '', 'postcode'],
  ['postcode', '7870', 'postcode'],
  ['note', 'x'.repeat(4001), 'note'],
])('%s %j is refused beside it, and all that was typed stays', async (field, typed, id) => {
  const before = (await allRequests()).length
  const answer = await send({ [field]: typed })
  expect(answer.status).toBe(422)
  expect(answer.text).toContain(`href="#${id}"`)
  expect(answer.text).toContain(`id="${id}-error"`)
  expect(answer.text).toContain('value="Rex, friendly"')
  expect(answer.text).toContain('<input type="hidden" name="beds.1.sizes.diameter" value="about 9">')
  expect(await allRequests()).toHaveLength(before)
})

test('a phone or a mail address is enough, but one it must be', async () => {
  expect((await send({ phone: '' })).status).toBe(303)
  expect((await send({ email: '' })).status).toBe(303)
  const answer = await send({ phone: '', email: '', name: '' })
  expect(answer.status).toBe(422)
  expect(answer.text).toContain('id="phone-error"')
  expect(answer.text).toContain('id="name-error"')
})

test.each(['512.555.0177', '5125550177', '+52 55 1234 5678', '(512) 555-0177 ext. 4'])(
  'the phone %s is taken',
  async phone => {
    expect((await sendForm(app, { phone })).status).toBe(303)
  },
)

test.each(['78701', ' 78701 ', '78701-0001', '78701 0001', '787010001'])(
  'the ZIP %s is taken',
  async postcode => {
    expect((await sendForm(app, { postcode })).status).toBe(303)
  },
)

test('beds that can’t be read lead back to the beds, with all of them', async () => {
  const answer = await sendForm(app, { 'beds.0.sizes.length': 'long' })
  expect(answer.status).toBe(422)
  expect(answer.text).toContain('id="beds-0-sizes-length-error"')
})

/** The range and the ZIP that a page says it shows. */
function shownIn(page: string) {
  const field = (name: string) => new RegExp(`name="${name}" value="([^"]*)"`).exec(page)![1]!
  return { shown: field('shown'), shownPostcode: field('shownPostcode') }
}

test('a range other than the one shown is shown before anything is taken in', async () => {
  const before = (await allRequests()).length
  const answer = await sendForm(app, { shown: '100.00 110.00 120.00', shownPostcode: '78702-1234' })
  expect(answer.status).toBe(422)
  expect(answer.text).toContain('Your price range changed')
  expect(await allRequests()).toHaveLength(before)
  expect((await sendForm(app, shownIn(answer.text))).status).toBe(303)
})

test('travel to the first ZIP given is shown before anything is taken in; so is a ZIP that is not served', async () => {
  const contact = await app.browser().get(`/request?${new URLSearchParams(BEDS)}`)
  const shown = shownIn(contact.text)
  expect(shown.shownPostcode).toBe('')
  const travelling = await sendForm(app, { ...shown, postcode: '78701' })
  expect(travelling.status).toBe(422)
  expect(travelling.text).toContain('Your price range changed')
  expect((await sendForm(app, { ...shownIn(travelling.text), postcode: '78701' })).status).toBe(303)
  const elsewhere = await sendForm(app, { ...shown, postcode: '10001' })
  expect(elsewhere.status).toBe(422)
  expect(elsewhere.text).toContain('don’t usually work in this ZIP code')
  expect((await sendForm(app, { ...shownIn(elsewhere.text), postcode: '10001' })).status).toBe(303)
})

test('from another site it is refused', async () => {
  const answer = await send().set('origin', 'https://elsewhere.example')
  expect(answer.status).toBe(403)
})

test('more than a few a minute from one address are refused', async () => {
  const statuses = new Set<number>()
  for (let n = 0; n < 31; n++) {
    const answer = await app.server.inject({
      method: 'POST',
      url: '/requests',
      remoteAddress: '203.0.113.250',
      headers: { origin: 'http://localhost:8080', 'content-type': 'application/x-www-form-urlencoded' },
      payload: 'name=',
    })
    statuses.add(answer.statusCode)
  }
  expect([...statuses].at(-1)).toBe(429)
})

test('beds that cost beyond all measure are refused', async () => {
  const vast = { 'beds.0.sizes.length': '100000', 'beds.0.sizes.width': '100000', 'beds.0.count': '99' }
  const before = (await allRequests()).length
  expect((await sendForm(app, vast)).status).toBe(422)
  expect(await allRequests()).toHaveLength(before)
})
