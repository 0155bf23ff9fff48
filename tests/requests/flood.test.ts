import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { signTime } from '../../src/junk/form-time.ts'
import { JunkWatch } from '../../src/junk/watch.ts'
import { MOST_KEPT } from '../../src/requests/maybe-junk/hold.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { BEDS, CAROL } from '../helpers/request-form.ts'

/** How many come over ten minutes: 10,000 by `npm run flood`. */
const REQUESTS = Number(process.env.FLOOD ?? 300)
const SECONDS = 600
const ADDRESSES = 500
const START = Temporal.Instant.from('2026-03-02T15:00:00Z')
const COPIED = [
  'We offer the best prices for leads in your town, answer today and get the first hundred of them free',
  'Hello dear owner, your web page could be found by many more people, our team helps you for little money',
]

let app: TestApp
let owner: Browser
let seed = 42

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  app.deps.load.junk = new JunkWatch(app.deps.now)
})
afterAll(() => app.close())

// A linear congruential generator: the same flood in every run.
function draw(most: number): number {
  seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648
  return Math.floor((seed / 2_147_483_648) * most)
}
const word = () => Array.from({ length: 4 + draw(7) }, () => String.fromCharCode(97 + draw(26))).join('')
const words = (count: number) => Array.from({ length: count }, word).join(' ')

/** Each tenth with beds, since working out their price is most of what one costs. */
const askedFor = (nth: number) => (nth % 10 === 0 ? BEDS : { as: 'look', shownPostcode: CAROL.postcode })

/** Half are copies, each with a little of its own, half random words and links; all with a time as the form gives it. */
function junk(nth: number): Record<string, string> {
  const fields = {
    ...askedFor(nth),
    name: words(2),
    street: `${draw(900)} ${word()}`,
    email: `${word()}@mail.example`,
    phone: '',
  }
  if (nth % 2 === 0) return { ...fields, note: `${word()} ${COPIED[(nth / 2) % COPIED.length]}` }
  return { ...fields, note: `${words(10)} https://${word()}.example/${word()}` }
}

async function send(fields: Record<string, string>, address: string, at: Temporal.Instant) {
  app.setClock(at.toString())
  const submissionKey = randomUUID()
  const begun = signTime(app.deps.secretKey, submissionKey, at.subtract({ seconds: 8 + draw(300) }))
  return app.server.inject({
    method: 'POST',
    url: '/requests',
    remoteAddress: address,
    headers: { origin: 'http://localhost:8080', 'content-type': 'application/x-www-form-urlencoded' },
    payload: new URLSearchParams({ ...CAROL, submissionKey, begun, ...fields }).toString(),
  })
}

/** Two homeowners who write to us in the midst of it, one of them from the same neighborhood as some of the flood. */
const REAL = {
  half: {
    name: 'Rosa Delgado',
    street: '7 Cedar Court',
    note: 'Dos jardineras junto al portón, el perro es manso. Llame después de las cuatro, por favor.',
  },
  later: {
    name: 'Sam Whitaker',
    street: '31 Oak Hill',
    note: 'ALL THREE BEDS BY THE PORCH 🌷 photo: https://photos.example.com/a/Xq3j',
  },
}

test(`${REQUESTS} requests in ten minutes keep nobody out, stand in nobody’s way, and are bounded`, {
  timeout: 3_600_000,
}, async () => {
  const began = process.cpuUsage()
  const statuses = new Map<number, number>()
  const realAt = { [Math.floor(REQUESTS / 2)]: REAL.half, [Math.floor(REQUESTS * 0.9)]: REAL.later }
  for (let nth = 0; nth < REQUESTS; nth++) {
    const at = START.add({ milliseconds: Math.floor((nth * SECONDS * 1000) / REQUESTS) })
    const from = nth % ADDRESSES
    const { statusCode } = await send(junk(nth), `198.18.${from % 25}.${10 + Math.floor(from / 25)}`, at)
    statuses.set(statusCode, (statuses.get(statusCode) ?? 0) + 1)
    const real = realAt[nth]
    if (!real) continue
    const answer = await send({ ...BEDS, ...real }, real === REAL.half ? '203.0.113.9' : '198.18.3.200', at)
    expect(answer.statusCode).toBe(303)
    const mails = await app.db
      .selectFrom('outbox')
      .innerJoin('quote_request', 'quote_request.id', 'outbox.quote_request_id')
      .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
      .where('customer.name', '=', real.name)
      .select(['outbox.kind', 'outbox.id'])
      .execute()
    expect(mails.map(({ kind }) => kind).sort()).toEqual(['request-arrived', 'request-received'])
    // Put on to be sent in the very transaction.
    expect(app.queued).toEqual(expect.arrayContaining(mails.map(({ id }) => id)))
  }
  const { user, system } = process.cpuUsage(began)
  expect([...statuses.keys()]).toEqual([303])
  const queue = (await owner.get('/queue')).text
  const shown = [...queue.matchAll(/class="row-name"><a href="[^"]+">([^<]+)</g)].map(([, name]) => name)
  for (const { name } of Object.values(REAL)) expect(shown.slice(0, 10)).toContain(name)
  const { requests, held } = await app.db
    .selectNoFrom(eb => [
      eb
        .selectFrom('quote_request')
        .select(of => of.fn.countAll<number>().as('n'))
        .$asScalar()
        .as('requests'),
      eb
        .selectFrom('maybe_junk')
        .select(of => of.fn.countAll<number>().as('n'))
        .$asScalar()
        .as('held'),
    ])
    .executeTakeFirstOrThrow()
  // Let in are the two and, of each text, those before it was known as one that is copied.
  expect(Number(requests)).toBeLessThanOrEqual(Object.keys(REAL).length + 2 * COPIED.length)
  expect(Number(held)).toBe(Math.min(MOST_KEPT, REQUESTS + 2 - Number(requests)))
  if (process.env.FLOOD)
    console.log(
      `${REQUESTS} requests: ${requests} in the queue, ${held} held, ${((user + system) / 1000 / REQUESTS).toFixed(1)} ms of processor time each`,
    )
})
