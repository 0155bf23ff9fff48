import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { signTime } from '../../src/junk/form-time.ts'
import { JunkWatch } from '../../src/junk/watch.ts'
import { StoredBudgets } from '../../src/requests/maybe-junk/budgets.ts'
import { MOST_KEPT } from '../../src/requests/maybe-junk/hold.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { COPIED, flood, REAL } from '../helpers/flood.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { BEDS, CAROL } from '../helpers/request-form.ts'

/** How many come over ten minutes: 10,000 by `npm run flood`. */
const REQUESTS = Number(process.env.FLOOD ?? 300)

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  app.deps.load.junk = new JunkWatch(app.deps.now, { budgets: new StoredBudgets(app.db, app.deps.secretKey) })
})
afterAll(() => app.close())

/** Each tenth with beds, since working out their price is most of what one costs. */
const askedFor = (nth: number) => (nth % 10 === 0 ? BEDS : { as: 'look', shownPostcode: CAROL.postcode })

async function send(fields: Record<string, string>, address: string, seconds: number) {
  const submissionKey = randomUUID()
  const begun = signTime(app.deps.secretKey, submissionKey, app.deps.now().subtract({ seconds }))
  const answer = await app.server.inject({
    method: 'POST',
    url: '/requests',
    remoteAddress: address,
    headers: { origin: 'http://localhost:8080', 'content-type': 'application/x-www-form-urlencoded' },
    payload: new URLSearchParams({ ...CAROL, submissionKey, begun, ...fields }).toString(),
  })
  return answer.statusCode
}

/** That somebody's request came in, with its mails put on to be sent in the very transaction. */
async function requireMails(name: string) {
  const mails = await app.db
    .selectFrom('outbox')
    .innerJoin('quote_request', 'quote_request.id', 'outbox.quote_request_id')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .where('customer.name', '=', name)
    .select(['outbox.kind', 'outbox.id'])
    .execute()
  expect(mails.map(({ kind }) => kind).sort()).toEqual(['request-arrived', 'request-received'])
  expect(app.queued).toEqual(expect.arrayContaining(mails.map(({ id }) => id)))
}

const count = async (table: 'quote_request' | 'maybe_junk') =>
  (await app.db.selectFrom(table).select('id').execute()).length

test(`${REQUESTS} requests in ten minutes keep nobody out, stand in nobody’s way, and are bounded`, {
  timeout: 3_600_000,
}, async () => {
  const began = process.cpuUsage()
  const statuses = new Set<number>()
  let nth = 0
  for (const { at, address, fields, seconds } of flood(REQUESTS)) {
    app.setClock(at.toString())
    statuses.add(await send({ ...askedFor(nth), ...fields, phone: '' }, address, seconds))
    nth += 1
    for (const { at: share, address: home, ...real } of Object.values(REAL)) {
      if (nth !== REQUESTS * share) continue
      statuses.add(await send({ ...BEDS, ...real }, home, 40))
      await requireMails(real.name)
    }
  }
  const { user, system } = process.cpuUsage(began)
  expect([...statuses]).toEqual([303])
  const queue = (await owner.get('/queue')).text
  const shown = [...queue.matchAll(/class="row-name"><a href="[^"]+">([^<]+)</g)].map(([, name]) => name)
  for (const { name } of Object.values(REAL)) expect(shown.slice(0, 10)).toContain(name)
  const [requests, held] = [await count('quote_request'), await count('maybe_junk')]
  // Let in are the two and, of each text, those before it was known as one that is copied.
  expect(requests).toBeLessThanOrEqual(Object.keys(REAL).length + 2 * COPIED.length)
  expect(held).toBe(Math.min(MOST_KEPT, REQUESTS + 2 - requests))
  if (process.env.FLOOD) {
    const each = ((user + system) / 1000 / REQUESTS).toFixed(1)
    console.log(`${requests} in the queue, ${held} held, ${each} ms of processor time for each request`)
  }
})
