import { availableParallelism } from 'node:os'
import type { FastifyInstance } from 'fastify'
import { buildApp } from './app.ts'
import { listenForCommands } from './command/listen.ts'
import type { Config } from './config.ts'
import type { Store } from './db/open.ts'
import type { Deps } from './deps.ts'
import { fillPeople } from './fill-people.ts'
import { fillUnderstood } from './fill-understood.ts'
import { buildAssets } from './http/assets.ts'
import { JunkWatch } from './junk/watch.ts'
import { requireStoresKey } from './key-check.ts'
import { type BackgroundWork, startBackgroundWork } from './letters/jobs.ts'
import { takeUpWork } from './letters/worker.ts'
import type { Now } from './lib/dates.ts'
import { Budget, PHOTO_LIMITS } from './limits/budget.ts'
import { Guesses } from './limits/guesses.ts'
import { Hold } from './limits/hold.ts'
import { Space } from './limits/space.ts'
import { Threads } from './limits/threads.ts'
import { messages } from './messages.ts'
import { type Metrics, measure } from './operations/metrics.ts'
import { serveMetrics } from './operations/metrics-server.ts'
import { backUpNightly } from './operations/nightly-backup.ts'
import { type ErasedAgain, eraseAgain } from './privacy/erase-again.ts'
import { noteErased } from './privacy/erased-file.ts'
import { keepStanding } from './rates/standing.ts'
import { StoredBudgets } from './requests/maybe-junk/budgets.ts'
import { readSecretKey } from './secret-key.ts'

const GRACE = 10_000
const SWEEP = 200
const HOLD = 1000
const MOST_WAITING = 32
const WATCH = 1_000

/** What has to be open before a page can be answered. */
export interface Opened {
  deps: Deps
  store: Store
  work: BackgroundWork
  /** Null where nothing is measured. */
  metrics: Metrics | null
  /** Who was erased again at this start. */
  erasedAgain: ErasedAgain
}

export interface Service {
  /** Where it listens, as `http://127.0.0.1:8080`. */
  address: string
  deps: Deps
  /** Stops listening, finishes what is being answered and sent, and closes the store. */
  close(): Promise<void>
}

/**
 * Gets ready all that the application is built from, over a store whose tables are up to date; closes it when that fails.
 * @throws what `explain` puts into a line
 */
export async function open(
  store: Store,
  config: Config,
  { now, demo }: { now: Now; demo: boolean },
): Promise<Opened> {
  const threads = makeThreads()
  try {
    const secretKey = readSecretKey(config.secretKey, config.dataDir)
    await requireStoresKey(store.db, secretKey)
    await fillUnderstood(store.db)
    await fillPeople(store.db)
    // Nobody is to be read who was erased, in a store that was restored from before.
    const erasedAgain = await eraseAgain(store.db, config.dataDir, now())
    const noting = () => noteErased(store.db, config.dataDir)
    await noting()
    const [work, assets] = await Promise.all([startBackgroundWork(store), buildAssets(), threads.warm()])
    const standing = keepStanding(store, now)
    const load = {
      budget: new Budget(now),
      photos: new Budget(now, PHOTO_LIMITS),
      space: new Space(),
      threads,
      hold: new Hold(HOLD),
      guesses: new Guesses(now),
      junk: new JunkWatch(now, { budgets: new StoredBudgets(store.db, secretKey) }),
    }
    const metrics = config.metrics && measure(store, config, now)
    const answered = metrics?.answered
    const made = {
      config,
      db: store.db,
      kind: store.kind,
      now,
      standing,
      secretKey,
      assets,
      jobs: work.jobs,
      load,
      demo,
      answered,
      noteErased: noting,
    }
    return { store, work, metrics, deps: made, erasedAgain }
  } catch (error) {
    await threads.close()
    await store.close()
    throw error
  }
}

// One processor is left to this thread.
function makeThreads(): Threads {
  const threads = Math.min(2, Math.max(1, availableParallelism() - 1))
  return new Threads(new URL('./requests/thread-program.ts', import.meta.url), {
    threads,
    waiting: MOST_WAITING,
  })
}

/** Answers pages and does the background work until SIGTERM or SIGINT, or until it is closed. The log goes to standard output unless told otherwise. */
export async function serve(
  { deps, store, work, metrics }: Opened,
  log?: NodeJS.WritableStream,
): Promise<Service> {
  const { server } = await buildApp(deps, log)
  const commands = await listenForCommands(deps, store, line => server.log.warn(line))
  const watching = watchOthers(deps, store)
  let metricsServer: Awaited<ReturnType<typeof serveMetrics>> | undefined
  const close = once(async () => {
    await closeServer(server)
    await metricsServer?.close()
    clearInterval(watching)
    await deps.load.threads.close()
    await commands.close()
    await work.stop(GRACE)
    await store.close()
  })
  try {
    work.reportTo(err => server.log.error({ err }, 'fault in the background work'))
    work.noteTo(deleted => server.log.info({ deleted }, 'past its time'))
    deps.standing.reportTo(err => server.log.error({ err }, 'fault in looking whether the rates changed'))
    await deps.standing.read()
    await takeUpWork(work, { ...deps, db: store.patientDb, messages }, store, async () => {
      await deps.noteErased?.()
      await backUpNightly({ store, config: deps.config, at: deps.now() })
    })
    if (metrics) {
      metricsServer = await serveMetrics(deps.config, metrics)
      server.log.info({ address: metricsServer.address }, 'metrics')
    }
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

function once(action: () => Promise<void>): () => Promise<void> {
  let done: Promise<void> | undefined
  return () => (done ??= action())
}
