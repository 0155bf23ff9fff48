import { join } from 'node:path'
import { expect, inject, test } from 'vitest'
import { openMigratedStore } from '../../src/db/migrate.ts'
import { openStore, type StoreOptions } from '../../src/db/open.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Environment, emptyStore, ownFolder, startBedwright } from '../helpers/process.ts'
import { testDatabase } from '../helpers/store.ts'
import { prepareDay, type Step, takePicture } from './day-to-money.ts'

/**
 * At every statement of every step in a long run, or at every so many as `KILLS` says, from one by chance on; else in a few
 * steps, after some statement or the commit.
 */
const EVERY = process.env.KILLS === 'all' ? 1 : Number(process.env.KILLS ?? 0)
const EVERYWHERE = EVERY > 0
/** Names of the steps that a long run kills in, to go on where another one ended; all unless told otherwise. */
const KILLS_IN = process.env.KILLS_IN?.split(',')
/** A long run may stand back behind everything else on the machine. */
const PATIENCE = EVERYWHERE ? 600_000 : 60_000
const DIES = join(import.meta.dirname, 'dies-at-statement.ts')
// A start takes some seconds of a processor.
const KILLS = inject('storeKind') === 'embedded' ? 1 : 2

test('a service that is killed between any two steps leaves nothing half done, and the same form does it once', {
  timeout: EVERYWHERE ? 7_200_000 : 120_000,
}, async () => {
  const environment = await ownStore()
  const options = { dataDir: environment.DATA_DIR!, databaseUrl: environment.DATABASE_URL! }
  let app = await testApp({ store: await openMigratedStore(options) })
  const { cookie, steps } = await prepareDay(app)
  let picture = await takePicture(app.db)
  const chosen = new Set(shuffled(steps).slice(0, KILLS))
  for (const step of steps) {
    const sent = await formOf(step, app, cookie)
    const after = step.makes(picture)
    expect(after).not.toEqual(picture)
    for (const dieAfter of killsIn(step, chosen)) {
      await app.close()
      const { wasAnswered } = await killWhile(sent, environment, app.deps.secretKey, dieAfter)
      app = await reopen(options)
      const left = await takePicture(app.db)
      const expected = wasAnswered || dieAfter === 'commit' ? [after] : [picture, after]
      expect(expected, `${step.name}, killed after ${dieAfter}`).toContainEqual(left)
      if (JSON.stringify(left) === JSON.stringify(after)) break
    }
    // By whoever saw no answer, and by a double tap.
    for (const _ of [1, 2]) expect(await post(app.base, sent), step.name).toBe(303)
    picture = await takePicture(app.db)
    expect(picture, step.name).toEqual(after)
  }
  await app.close()
})

interface Sent {
  path: string
  form: Record<string, string>
  cookie: string
}

async function ownStore(): Promise<Environment> {
  if (inject('storeKind') === 'embedded') return emptyStore()
  return { DATA_DIR: await ownFolder(), DATABASE_URL: await testDatabase(inject('template')) }
}

const reopen = async (options: StoreOptions) => testApp({ store: await openStore(options) })

async function formOf({ path, form }: Step, { db }: TestApp, cookie: string): Promise<Sent> {
  return { path: typeof path === 'string' ? path : await path(db), form, cookie }
}

/** Starts the service in a process of its own, and sends it a form, of which it dies, at the latest when it has answered. */
async function killWhile(sent: Sent, environment: Environment, secretKey: string, dieAfter: string) {
  const bedwright = startBedwright({
    ...environment,
    ...{ SECRET_KEY: secretKey, PUBLIC_URL: ORIGIN, CLOCK: '2026-03-02T15:00:00Z' },
    NODE_OPTIONS: `--import ${DIES}`,
  })
  const address = await bedwright.address(PATIENCE)
  const status = await post(address, sent, { 'die-after': dieAfter }).catch(() => null)
  expect([303, null]).toContain(status)
  bedwright.child.kill('SIGKILL')
  await bedwright.ended()
  expect(bedwright.child.signalCode).toBe('SIGKILL')
  return { wasAnswered: status !== null }
}

const ORIGIN = 'http://localhost:8080'

async function post(address: string, { path, form, cookie }: Sent, headers = {}): Promise<number> {
  const sent = { method: 'POST', body: new URLSearchParams(form), redirect: 'manual' } as const
  return (await fetch(`${address}${path}`, { ...sent, headers: { cookie, origin: ORIGIN, ...headers } }))
    .status
}

function killsIn(step: Step, chosen: ReadonlySet<Step>): Iterable<string> {
  if (EVERYWHERE) return (KILLS_IN?.includes(step.name) ?? true) ? everyStatement() : []
  return chosen.has(step) ? [someStatement()] : []
}

function* everyStatement(): Generator<string> {
  for (let statement = Math.floor(Math.random() * EVERY); ; statement += EVERY) yield String(statement)
}

const someStatement = () => (Math.random() < 0.5 ? 'commit' : String(1 + Math.floor(Math.random() * 12)))

function shuffled<One>(all: readonly One[]): One[] {
  return all
    .map(one => [Math.random(), one] as const)
    .sort(([a], [b]) => a - b)
    .map(([, one]) => one)
}
