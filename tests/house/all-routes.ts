import { DummyDriver, Kysely, PostgresAdapter, PostgresIntrospector, PostgresQueryCompiler } from 'kysely'
import { buildApp } from '../../src/app.ts'
import { readConfig } from '../../src/config.ts'
import type { Database } from '../../src/db/schema.ts'
import { Arrivals } from '../../src/http/arrivals.ts'
import type { RouteRow } from '../../src/http/route-table.ts'
import { keepStanding } from '../../src/rates/standing.ts'
import { testLoad } from '../helpers/load.ts'

/** Every route of the application, as it registers them; nothing is opened for it. */
export async function allRoutes(): Promise<RouteRow[]> {
  const dialect = {
    createAdapter: () => new PostgresAdapter(),
    createDriver: () => new DummyDriver(),
    createIntrospector: (db: Kysely<Database>) => new PostgresIntrospector(db),
    createQueryCompiler: () => new PostgresQueryCompiler(),
  }
  const db = new Kysely<Database>({ dialect })
  const now = Temporal.Now.instant
  const { server, routes } = await buildApp({
    config: readConfig({ LOG_LEVEL: 'silent' }),
    db,
    kind: 'postgres',
    now,
    standing: keepStanding({ db, writes: () => 0 }, now),
    secretKey: '',
    assets: { addresses: {}, files: new Map() },
    jobs: { sendMail: async () => {}, sendText: async () => {} },
    load: testLoad(Temporal.Now.instant),
    arrivals: new Arrivals(now),
    demo: false,
  })
  await server.close()
  return routes
}
