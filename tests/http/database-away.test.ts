import { type Kysely, sql } from 'kysely'
import { afterAll, beforeAll, beforeEach, expect, inject, test } from 'vitest'
import { type App, buildApp } from '../../src/app.ts'
import { openStore, type Store } from '../../src/db/open.ts'
import type { Database } from '../../src/db/schema.ts'
import { keepStanding } from '../../src/rates/standing.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Gate, gateTo } from '../helpers/gate.ts'
import { ALICE, openBusiness } from '../helpers/people.ts'
import { urlOf } from '../helpers/store.ts'
import { until } from '../helpers/until.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

test('while the database answers, so do the pages that ask for it', async () => {
  for (const path of ['/livez', '/readyz', '/healthz']) {
    const answer = await app.browser().get(path)
    expect([path, answer.status, answer.text]).toEqual([path, 200, 'ok\n'])
  }
})

// The embedded store is in the process: it can't be away.
if (inject('storeKind') === 'postgres') {
  const DEADLINES = { acquire: 100, patience: 100, connect: 1_000, query: 60_000 }
  const ENGLISH = 'We can’t get to our records right now.'
  const SPANISH = 'En este momento no podemos consultar nuestros datos.'

  let gate: Gate
  let store: Store
  /** The same application once more, whose only way to the database is the gate. */
  let behind: App
  let cookie: string
  let asked = 0

  beforeAll(async () => {
    gate = await gateTo(await urlOf(app.store))
    store = await openStore({ dataDir: '', databaseUrl: gate.url, deadlines: DEADLINES })
    const log = { write: () => {} } as unknown as NodeJS.WritableStream
    const db = counting(store.db)
    const standing = keepStanding({ db, writes: store.writes }, app.deps.now)
    behind = await buildApp({ ...app.deps, db, standing }, log)
    const form = { email: ALICE.email, password: ALICE.password }
    const { cookies } = await post('/sign-in', form, app.server)
    cookie = cookies.map(({ name, value }) => `${name}=${value}`).join('; ')
  })
  afterAll(async () => {
    await behind.server.close()
    await store.close()
    await gate.shut()
  })
  beforeEach(async () => {
    // A connection that is open already: making one may take longer than the short deadline on a busy machine.
    await comesBack()
    asked = 0
  })

  const counting = (db: Kysely<Database>) =>
    db.withPlugin({
      transformQuery: ({ node }) => {
        asked += 1
        return node
      },
      transformResult: async ({ result }) => result,
    })
  const get = (url: string, headers: Record<string, string> = {}) => behind.server.inject({ url, headers })
  const post = (url: string, form: Record<string, string>, server = behind.server) =>
    server.inject({
      method: 'POST',
      url,
      headers: { origin: app.deps.config.publicUrl, 'content-type': 'application/x-www-form-urlencoded' },
      payload: new URLSearchParams(form).toString(),
    })
  const comesBack = () =>
    until(async () => (await get('/queue', { cookie })).statusCode === 200, {
      what: 'the pages to come back',
    })

  test('with the database away a page that needs it says so after one query, and comes back with it', async () => {
    await gate.shut()
    for (const [url, headers, says] of [
      ['/queue', { cookie }, ENGLISH],
      ['/', { cookie, 'accept-language': 'es' }, SPANISH],
      [`/r/${'A'.repeat(43)}`, {}, ENGLISH],
      [`/b/${'A'.repeat(43)}`, { cookie, 'accept-language': 'es' }, SPANISH],
    ] as const) {
      asked = 0
      const answer = await get(url, headers)
      expect([url, answer.statusCode, asked]).toEqual([url, 503, 1])
      expect(Number(answer.headers['retry-after'])).toBeGreaterThan(0)
      expect(answer.headers['content-type']).toContain('text/html')
      expect(answer.payload).toContain(says)
      // The name of the business, from what was read last.
      expect(answer.payload).toContain('Fern Beds')
    }
    const json = await get('/queue', { cookie, accept: 'application/json' })
    expect([json.statusCode, json.json().errors[0].message]).toEqual([503, expect.stringContaining(ENGLISH)])
    expect((await get('/readyz')).statusCode).toBe(503)
    expect((await get('/livez')).statusCode).toBe(200)
    const typed = { email: ALICE.email, password: 'whatever it may be' }
    expect((await post('/sign-in', typed)).statusCode).toBe(503)
    await gate.open()
    await comesBack()
  })

  test('with the database away, what rests on rates and business alone is answered from memory', async () => {
    await gate.shut()
    for (const [url, says] of [
      ['/', 'Fern Beds'],
      ['/?beds.1.shape=circle', 'Fern Beds'],
      ['/nowhere', 'Fern Beds'],
      ['/finishes', 'pine-straw'],
    ] as const) {
      const answer = await get(url)
      expect([url, answer.statusCode, asked]).toEqual([url, url === '/nowhere' ? 404 : 200, 0])
      expect(answer.payload).toContain(says)
    }
    await gate.open()
  })

  const WAITING = "datname = current_database() and wait_event_type = 'Lock'"
  const endWaiting = () =>
    app.store.executeSql(`select pg_terminate_backend(pid, 5000) from pg_stat_activity where ${WAITING}`)
  const isWaiting = async () => {
    const { rows } = await app.store.executeSql(`select pid from pg_stat_activity where ${WAITING}`)
    return rows.length > 0
  }

  test.each([
    ['its connection is cut', () => gate.shut().then(gate.open)],
    ['the server ends its connection', endWaiting],
  ])('a page that waits for an answer while %s is told the same', async (_what, cut) => {
    const page = await app.db.transaction().execute(async trx => {
      await sql`lock table account`.execute(trx)
      const asking = get('/queue', { cookie })
      await until(isWaiting, { what: 'the page to wait for the lock' })
      await cut()
      return await asking
    })
    expect([page.statusCode, asked]).toEqual([503, 1])
    expect(page.payload).toContain(ENGLISH)
    await comesBack()
  })
}
