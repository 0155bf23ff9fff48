import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { quotedRequest } from '../helpers/bookings.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
let values: Record<string, string[]>

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  const fresh = await sendRequest(app)
  const quoted = await quotedRequest(app)
  const token = (path: string) => path.split('/').at(-1)!
  values = {
    number: [fresh.number, quoted.number, '26-9999', "26-0001'--", '%F0%9F%8C%BF'],
    token: [token(fresh.ownPath), token(quoted.path), 'a'.repeat(43), '%2e%2e%2f'],
    finish: ['stone', '..%2Fstone', '__proto__', '%00'],
    day: ['2026-03-05', '2026-02-30', '9999-12-31', '0000-00-00', 'today'],
    bill: ['B26-0001', 'C26-0001', 'B26-0001%00', '0'],
    got: ['1', '0', '99999999999999999999', 'x'],
    id: ['1', '0', '-1', '99999999999999999999', 'x'],
    version: ['1', '9', '0', '01', 'two', '99999999999999999999'],
    section: [
      'labour',
      'finish.stone',
      'finish-packs.compost',
      'finishes',
      'tax',
      'finish.gold',
      '__proto__',
    ],
    photo: ['1', '0', '99999999999999999999', 'x'],
    file: ['style.css', '..%2F..%2Fpackage.json'],
  }
})
afterAll(() => app.close())

// Of the values to try, so many of the first are some that are there.
const THERE = 2
// Of what is not there, little is read.
const FEW = 2
const LONG = 'x'.repeat(5000)
const BODIES: [type: string, body: string][] = [
  ['application/x-www-form-urlencoded', ''],
  ['application/x-www-form-urlencoded', 'day=2026-03-05&revision=1&typedName=&read=yes&note=&reason='],
  [
    'application/x-www-form-urlencoded',
    `revision=99999999999999999999&day=0000-00-00&typedName=${LONG}&hours=1e999`,
  ],
  [
    'application/x-www-form-urlencoded',
    'beds.0.sizes.length=&beds.999999.shape=&beds.x.y.z=1&beds=&extras[]=&extras[]=',
  ],
  [
    'application/x-www-form-urlencoded',
    'a=1&a=2&__proto__.x=1&constructor.prototype.y=1&beds.__proto__.shape=1',
  ],
  [
    'application/x-www-form-urlencoded',
    'visit.date=2026-03-29&visit.time=99%3A99&laborHours=-1&amounts.0=1e400&note=%ED%A0%80',
  ],
  ['application/json', '{"revision":{"$gt":0},"beds":[[[]]],"day":[],"typedName":{}}'],
  ['application/json', '[]'],
  ['application/json', 'null'],
  ['text/plain', LONG],
  ['multipart/form-data; boundary=x', '--x\r\nContent-Disposition: form-data; name="a"'],
]

test('whatever is sent to whichever address, by the owner too, no answer is a fault of ours', async () => {
  const faults: string[] = []
  for (const { method, path, access } of app.routes) {
    // Signing out would end the owner's session, and the rest would be refused unread.
    if (path === '/sign-out' || access === 'asset') continue
    for (const [nth, address] of addressesOf(path).entries()) {
      // Every body goes to something that is there, by turns.
      const bodies = nth < THERE ? BODIES.filter((_, turn) => turn % THERE === nth) : BODIES.slice(0, FEW)
      for (const [type, body] of method === 'GET' ? [['', '']] : bodies) {
        const asked =
          method === 'GET'
            ? owner.get(`${address}?q=%27&from=0000&page=-1&key=x&beds.0=1`)
            : owner.post(address).set('content-type', type!).send(body)
        const { status } = await asked
        if (status >= 500) faults.push(`${method} ${address} ${type} ${body!.slice(0, 60)}: ${status}`)
      }
    }
  }
  expect(faults).toEqual([])
}, 120_000)

/** The path with each value tried in turn for what it leaves open. */
function addressesOf(path: string): string[] {
  const open = /:(\w+)/.exec(path)
  if (!open) return [path]
  return values[open[1]!]!.map(value => path.replace(open[0], value))
}
