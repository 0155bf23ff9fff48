import { collectDefaultMetrics, Gauge, Histogram, Registry } from 'prom-client'
import type { Config } from '../config.ts'
import type { Store } from '../db/open.ts'
import type { Answered } from '../http/log.ts'
import type { Now } from '../lib/dates.ts'
import { findStoreBackup } from '../store-backup.ts'
import { measureJobs, measureSteps } from './queue-metrics.ts'
import { findUnsent } from './unsent.ts'

const BUCKETS = [0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 10, 20]

/** What is counted and measured, in base units; by the patterns of routes, never by addresses or ids. */
export interface Metrics {
  answered: Answered
  /** In the text format of Prometheus; its media type is `type`. */
  text(): Promise<string>
  type: string
}

/** Begins to measure; what stands in the store is read when it is asked for. */
export function measure(store: Store, config: Config, now: Now): Metrics {
  const registry = new Registry()
  collectDefaultMetrics({ register: registry })
  const durations = new Histogram({
    name: 'http_request_duration_seconds',
    help: 'From the first byte of a request to the last of its answer.',
    labelNames: ['method', 'route', 'status'],
    buckets: BUCKETS,
    registers: [registry],
  })
  measureOutbox(registry, { db: store.db, config, now })
  measureJobs(registry, store)
  measureSteps(registry, store, now)
  measureBackup(registry, store)
  if (store.connections) measureConnections(registry, store.connections)
  return {
    answered: (method, route, status, seconds) => {
      durations.observe({ method, route, status: String(status) }, seconds)
    },
    text: () => registry.metrics(),
    type: registry.contentType,
  }
}

function measureOutbox(registry: Registry, at: Parameters<typeof findUnsent>[0]): void {
  new Gauge({
    name: 'bedwright_outbox_messages',
    help: 'Messages that are not sent: waiting, to be passed on by hand, not accepted, or given up after three days.',
    labelNames: ['state'],
    registers: [registry],
    async collect() {
      const { waiting, by_hand, stopped, given_up } = await findUnsent(at)
      this.set({ state: 'waiting' }, waiting)
      this.set({ state: 'by hand' }, by_hand)
      this.set({ state: 'not accepted' }, stopped)
      this.set({ state: 'given up' }, given_up)
    },
  })
  new Gauge({
    name: 'bedwright_outbox_oldest_seconds',
    help: 'How long the oldest message that is still to be sent has waited; 0 where none is.',
    registers: [registry],
    async collect() {
      const { oldest } = await findUnsent(at)
      this.set(oldest ? at.now().since(oldest).total('seconds') : 0)
    },
  })
}

function measureBackup(registry: Registry, store: Store): void {
  new Gauge({
    name: 'bedwright_last_backup_timestamp_seconds',
    help: 'When the last nightly backup was made; 0 where none was.',
    registers: [registry],
    async collect() {
      const last = await findStoreBackup(store.db)
      this.set(last?.made_at ? Temporal.Instant.from(last.made_at).epochMilliseconds / 1000 : 0)
    },
  })
}

function measureConnections(registry: Registry, connections: NonNullable<Store['connections']>): void {
  new Gauge({
    name: 'bedwright_database_connections',
    help: 'Connections to the database: used, free, and how many wait for one.',
    labelNames: ['state'],
    registers: [registry],
    collect() {
      for (const [state, count] of Object.entries(connections())) this.set({ state }, count)
    },
  })
}
