import { expect, onTestFinished, test } from 'vitest'
import { ALICE, SET_UP_FIELDS } from '../helpers/people.ts'
import { startServer } from '../helpers/postgres-server.ts'
import { ownFolder, startBedwright } from '../helpers/process.ts'
import { bedTold, told } from '../helpers/requests.ts'
import { formBody, setUpAt, setUpLine } from '../helpers/set-up.ts'
import { until } from '../helpers/until.ts'

/** The fields of the set-up form whose names begin in one of these ways. */
const fields = (beginning: RegExp) =>
  Object.fromEntries(Object.entries(SET_UP_FIELDS).filter(([name]) => beginning.test(name)))

test('what one process changes is shown by itself at once, soon by the other, and still by both with the database gone', async () => {
  const server = await startServer()
  onTestFinished(server.stop)
  const environment = {
    DATABASE_URL: server.url,
    DATA_DIR: await ownFolder(),
    SECRET_KEY: 'a key for tests only, 32 characters or more',
  }
  const one = startBedwright(environment)
  const first = await one.address()
  await setUpAt(first, new URL(await setUpLine(one)).pathname)
  const second = await startBedwright(environment).address()
  for (const address of [first, second])
    expect([await priceAt(address), await isNamed(address, 'Fern Beds')]).toEqual(['150.00', true])

  const signedIn = await post(`${first}/sign-in`, { email: ALICE.email, password: ALICE.password })
  const cookie = signedIn.headers
    .getSetCookie()
    .map(set => set.split(';')[0])
    .join('; ')
  const rates = { ...fields(/^(rates|extras|travel)\.|^laborHours/), minimumCharge: '175', version: '1' }
  expect((await post(`${first}/rates`, rates, cookie)).status).toBe(303)
  expect(await priceAt(first)).toBe('175.00')
  await until(async () => (await priceAt(second)) === '175.00', { what: 'the new price at the second' })

  const business = {
    ...fields(/^(business|workingDays)/),
    'business.name': 'Moss Beds',
    'business.country': 'US',
    'business.answerWithinDays': '2',
    'business.photosEach': '6',
    'business.photosMegabytes': '500',
    'business.photosMonths': '6',
  }
  expect((await post(`${first}/settings/business`, business, cookie)).status).toBe(303)
  expect(await isNamed(first, 'Moss Beds')).toBe(true)
  await until(() => isNamed(second, 'Moss Beds'), { what: 'the new name at the second' })

  await server.stop()
  for (const address of [first, second]) {
    expect((await fetch(`${address}/readyz`)).status).toBe(503)
    expect([await priceAt(address), await isNamed(address, 'Moss Beds')]).toEqual(['175.00', true])
  }
})

/** What a bed of one square foot costs: the minimum charge. */
async function priceAt(address: string): Promise<string> {
  const bed = bedTold({ sizes: { length: '1 ft', width: '1 ft' } })
  const headers = { 'content-type': 'application/json' }
  const answer = await fetch(`${address}/ballpark`, {
    method: 'POST',
    headers,
    body: JSON.stringify(told(bed)),
  })
  return ((await answer.json()) as { range: { likely: string } }).range.likely
}

async function isNamed(address: string, name: string): Promise<boolean> {
  return (await (await fetch(address)).text()).includes(`<a href="/">${name}</a>`)
}

function post(address: string, sent: Record<string, string | string[]>, cookie = ''): Promise<Response> {
  const headers = { origin: new URL(address).origin, cookie }
  return fetch(address, { method: 'POST', headers, body: formBody(sent), redirect: 'manual' })
}
