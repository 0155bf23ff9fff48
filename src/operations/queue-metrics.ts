import { sql } from 'kysely'
import { Gauge, type Registry } from 'prom-client'
import { findBusiness } from '../business/queries.ts'
import type { Store } from '../db/open.ts'
import { QUEUES } from '../letters/jobs.ts'
import { dayOf, type Now } from '../lib/dates.ts'
import { findLongestWaiting } from '../queue/steps.ts'

/** What waits in a queue: how much, and for how long the oldest has, in seconds; 0 where nothing does. */
interface Depth {
  queue: string
  count: number
  seconds: number
}

/** The work in the background by its queue; nothing where there are no queues in the store. */
export function measureJobs(registry: Registry, { db }: Store): void {
  measureDepth(registry, {
    label: 'queue',
    count: 'bedwright_background_jobs',
    countHelp: 'Jobs of the work in the background that wait to be done, or to be tried again.',
    oldest: 'bedwright_background_oldest_seconds',
    oldestHelp: 'How long ago the oldest job that waits was put on; 0 where none waits.',
    read: () => findJobs(db),
  })
}

/** The requests on the contractor's list by their step, without those on hold. */
export function measureSteps(registry: Registry, { db }: Store, now: Now): void {
  measureDepth(registry, {
    label: 'step',
    count: 'bedwright_queue_requests',
    countHelp: 'Requests under each step of the queue, without those on hold.',
    oldest: 'bedwright_queue_oldest_seconds',
    oldestHelp: 'How long the oldest request under a step has been at its stage; 0 where none is.',
    read: async () => {
      const timeZone = (await findBusiness(db))?.time_zone ?? 'UTC'
      const steps = await findLongestWaiting(db, { now: now(), today: dayOf(now(), timeZone) })
      return steps.map(({ step, count, since }) => ({
        queue: step,
        count,
        seconds: since ? now().since(since).total('seconds') : 0,
      }))
    },
  })
}

interface Measured {
  label: string
  count: string
  countHelp: string
  oldest: string
  oldestHelp: string
  read(): Promise<Depth[]>
}

function measureDepth(registry: Registry, measured: Measured): void {
  const { label, read } = measured
  const shared = { labelNames: [label], registers: [registry] }
  new Gauge({
    ...shared,
    name: measured.count,
    help: measured.countHelp,
    async collect() {
      for (const { queue, count } of await read()) this.set({ [label]: queue }, count)
    },
  })
  new Gauge({
    ...shared,
    name: measured.oldest,
    help: measured.oldestHelp,
    async collect() {
      for (const { queue, seconds } of await read()) this.set({ [label]: queue }, seconds)
    },
  })
}

/** By the database's clock, as the jobs are put on by it. */
async function findJobs(db: Store['db']): Promise<Depth[]> {
  const { rows: found } = await sql<{ has: boolean }>`
    select to_regclass('pgboss.job') is not null as has`.execute(db)
  if (!found[0]!.has) return []
  const { rows } = await sql<Depth>`
    select queue, count(job.id) as count,
      greatest(coalesce(extract(epoch from now() - min(job.created_on)), 0), 0)::float8 as seconds
    from unnest(${sql.val(QUEUES)}::text[]) as queue
    left join pgboss.job as job
      on job.name = queue and job.state in ('created', 'retry') and job.keep_until > now()
    group by queue order by queue`.execute(db)
  return rows
}
