import type { FastifyInstance } from 'fastify'
import { buildApp } from './app.ts'
import { type Config, ConfigFaults } from './config.ts'
import { StoreUnusable } from './db/embedded.ts'
import { FolderInUse } from './db/lock.ts'
import { openMigratedStore, StoreIsNewer } from './db/migrate.ts'
import type { Store } from './db/open.ts'
import { ConnectionLost } from './db/postgres-pool.ts'
import type { Deps } from './deps.ts'
import { buildAssets } from './http/assets.ts'
import { type BackgroundWork, startBackgroundWork } from './letters/jobs.ts'
import { takeUpWork } from './letters/worker.ts'
import type { Now } from './lib/dates.ts'
import { messages } from './messages.ts'
import { keepStanding } from './rates/standing.ts'
import { readSecretKey } from './secret-key.ts'

const GRACE = 10_000
const SWEEP = 200
const WATCH = 1_000
const SAYS_ENOUGH = ['EACCES', 'EADDRNOTAVAIL', 'ENOSPC', 'ENOTDIR', 'EPERM', 'EROFS']

/** What has to be open before a page can be answered. */
export interface Opened {
  deps: Deps
  store: Store
  work: BackgroundWork
}

export interface Service {
  /** Where it listens, as `http://127.0.0.1:8080`. */
  address: string
  deps: Deps
  /** Stops listening, finishes what is being answered and sent, and closes the store. */
  close(): Promise<void>
}

/**
 * Opens the store, brings its tables up to date, and gets ready all that the application is built from.
 * @throws what `explain` puts into a line
 */
export async function open(config: Config, { now, demo }: { now: Now; demo: boolean }): Promise<Opened> {
  const store = await openMigratedStore(config)
  try {
    const secretKey = readSecretKey(config.secretKey, config.dataDir)
    const [work, assets] = await Promise.all([startBackgroundWork(store), buildAssets()])
    const standing = keepStanding(store, now)
    const deps = { config, db: store.db, now, standing, secretKey, assets, jobs: work.jobs, demo }
    return { store, work, deps }
  } catch (error) {
    await store.close()
    throw error
  }
}

/** Answers pages and does the background work until SIGTERM or SIGINT, or until it is closed. */
export async function serve({ deps, store, work }: Opened): Promise<Service> {
  const { server } = await buildApp(deps)
  const watching = watchOthers(deps, store)
  const close = once(async () => {
    await closeServer(server)
    clearInterval(watching)
    await work.stop(GRACE)
    await store.close()
  })
  try {
    work.reportTo(err => server.log.error({ err }, 'fault in the background work'))
    deps.standing.reportTo(err => server.log.error({ err }, 'fault in looking whether the rates changed'))
    await deps.standing.read()
    await takeUpWork(work, { ...deps, messages }, store)
    const address = await server.listen({ port: deps.config.port, host: deps.config.host })
    for (const signal of ['SIGTERM', 'SIGINT'] as const) {
      process.once(signal, () => void close().then(() => process.exit(0)))
    }
    return { address, deps, close }
  } catch (error) {
    await close()
    throw error
  }
}

/** Looks once a second whether another process changed the business or its rates; the embedded store has one process. */
function watchOthers({ standing }: Deps, { kind }: Store): NodeJS.Timeout | undefined {
  if (kind === 'embedded') return undefined
  return setInterval(() => void standing.look().catch(() => {}), WATCH).unref()
}

/** Lets the requests under way finish, for 10 s at most: one half sent would hold it open for ever. */
async function closeServer(server: FastifyInstance): Promise<void> {
  const grace = setTimeout(() => server.server.closeAllConnections(), GRACE)
  // Node ends only those that are idle as the closing begins; one that was opened just then would be waited for.
  const sweep = setInterval(() => server.server.closeIdleConnections(), SWEEP)
  await server.close()
  clearInterval(sweep)
  clearTimeout(grace)
}

/** Why the start failed: one plain line where the person who started it can do something about it. */
export function explain(error: unknown): string {
  const told = [ConfigFaults, FolderInUse, StoreUnusable, StoreIsNewer]
  const { name, code, message, port, stack } = error as NodeJS.ErrnoException & { port?: number }
  if (told.some(kind => error instanceof kind)) return message
  if (code === 'EADDRINUSE') return `Port ${port} is taken: stop what listens there, or set PORT to another.`
  if (error instanceof ConnectionLost) {
    return 'The database does not answer: is DATABASE_URL right, and is the server running?'
  }
  if (name === 'PostgresError') return `The database refused: ${message}.`
  if (code && SAYS_ENOUGH.includes(code)) return `The start failed: ${message}.`
  return `The start failed: ${stack}`
}

function once(action: () => Promise<void>): () => Promise<void> {
  let done: Promise<void> | undefined
  return () => (done ??= action())
}
