import type { AddressInfo } from 'node:net'
import supertest from 'supertest'
import { inject } from 'vitest'
import { buildApp } from '../../src/app.ts'
import { readConfig } from '../../src/config.ts'
import type { Store } from '../../src/db/open.ts'
import type { Deps, Jobs, Load } from '../../src/deps.ts'
import { Arrivals } from '../../src/http/arrivals.ts'
import { type Assets, buildAssets } from '../../src/http/assets.ts'
import { keepStanding } from '../../src/rates/standing.ts'
import { testLoad } from './load.ts'
import { seenPages } from './markup.ts'
import { testStore } from './store.ts'

const ORIGIN = 'http://localhost:8080'
const START = '2026-03-02T15:00:00Z'

let assets: Promise<Assets> | undefined

/** A whole application on an empty store, its own or the worker's, with a clock that stands still until it is set. */
export async function testApp(
  options: { jobs?: Jobs; publicUrl?: string; load?: Partial<Load>; store?: Store } = {},
) {
  const origin = options.publicUrl ?? ORIGIN
  const store = options.store ?? (await testStore())
  const clock = { at: Temporal.Instant.from(START) }
  const queued: string[] = []
  const queuedTexts: string[] = []
  const log: string[] = []
  assets ??= buildAssets()
  const deps: Deps = {
    config: readConfig({ PUBLIC_URL: origin, LOG_LEVEL: 'info' }),
    db: store.db,
    kind: store.kind,
    now: () => clock.at,
    standing: keepStanding(store, () => clock.at),
    secretKey: 'a key for tests only, 32 characters or more',
    assets: await assets,
    jobs: options.jobs ?? {
      sendMail: async (_trx, id) => void queued.push(id),
      sendText: async (_trx, id) => void queuedTexts.push(id),
    },
    load: { ...testLoad(() => clock.at), ...options.load },
    arrivals: new Arrivals(() => clock.at),
    demo: false,
  }
  const stream = { write: (line: string) => void log.push(line) } as unknown as NodeJS.WritableStream
  const { server, routes } = await buildApp(deps, stream)
  await server.listen({ port: 0, host: '127.0.0.1' })
  const { port } = server.server.address() as AddressInfo
  const base = `http://127.0.0.1:${port}`
  // On one store only: the pages are the same on the other.
  const claims = inject('markupClaims')
  const pages = claims ? seenPages(claims) : undefined
  return {
    deps,
    store,
    db: store.db,
    kind: store.kind,
    routes,
    server,
    base,
    /** Every line that the log got, as text. */
    log,
    /** Ids of the outbox rows whose sending was put on. */
    queued,
    /** The same of texts, which is put on where there is a gateway. */
    queuedTexts,
    setClock: (iso: string) => {
      clock.at = Temporal.Instant.from(iso)
    },
    /** A browser of its own: keeps cookies, and says that its posts come from our pages. */
    browser: () => {
      const agent = supertest.agent(base).set('origin', origin)
      if (pages) agent.use(pages.see)
      return agent as ReturnType<typeof supertest.agent>
    },
    /** Ends it; throws when a page of a kind that its browsers were the first to see was not sound HTML. */
    close: async () => {
      await server.close()
      await store.close()
      await pages?.requireSound()
    },
  }
}

export type TestApp = Awaited<ReturnType<typeof testApp>>
