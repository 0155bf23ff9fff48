import { afterAll, beforeAll, expect, test } from 'vitest'
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

test('what goes out comes back into an empty business, and goes out the same, byte for byte', async () => {
  const hard = {
    name: '=HYPERLINK("x")',
    phone: '+1 512 555 0731',
    email: '',
    street: '7-9 "The Oaks", unit 4',
  }
  await sendRequest(app, {
    ...hard,
    gate: '0042',
    dog: '-',
    told: told(
      bedTold({ sizes: { length: '20', width: '5 ft' }, count: '3', depth: '2 in' }),
      bedTold({ shape: 'triangle', sizes: { base: '12 ft', height: '9 ft' }, lying: '1 in' }),
      { ...bedTold({ shape: 'circle', sizes: { diameter: '9 ft' } }), slope: 'steep', extras: ['edging'] },
    ),
  })
  // The same customer of the same address, whom nobody joined: two stay two.
  await sendRequest(app, hard)
  const out = async () => {
    const answer = await owner.post('/customers/file/customers.csv')
    expect(answer.headers['content-type']).toContain('text/csv')
    return answer.text
  }
  const first = await out()
  expect(first).toContain(`"'=HYPERLINK(""x"")"`)
  expect(first).not.toMatch(/(^|,|")[=+@-]/m)
  await app.close()
  app = await testApp()
  owner = (await openBusiness(app)).owner
  const kept = await owner.post('/customers/file').attach('file', Buffer.from(first), 'people.csv')
  const path = kept.headers.location!
  expect((await owner.get(path)).text).toContain('Nothing is wrong.')
  expect((await owner.post(`${path}/take-in`).type('form').send({})).status).toBe(303)
  expect(await out()).toBe(first)
})
