/**
 * A process of its own that books and moves on a server's database. The first line of its standard input is JSON: the server's
 * address, the moment it is, what to do and in how many lanes. It says that it is ready, does all of it when its standard
 * input ends, and prints as JSON what became of each.
 */
import { createInterface } from 'node:readline'
import { openStore } from '../../src/db/open.ts'
import type { Deps } from '../../src/deps.ts'
import { keepStanding } from '../../src/rates/standing.ts'
import { PATIENT } from '../helpers/patient.ts'
import { type Act, doActs } from './acts.ts'

interface Wanted {
  databaseUrl: string
  at: string
  acts: Act[]
  lanes: number
}

const input = createInterface(process.stdin)[Symbol.asyncIterator]()
const { databaseUrl, at, acts, lanes } = JSON.parse((await input.next()).value!) as Wanted
const store = await openStore({ dataDir: '', databaseUrl, deadlines: PATIENT })
const now = () => Temporal.Instant.from(at)
const deps = {
  db: store.db,
  kind: store.kind,
  now,
  standing: keepStanding(store, now),
  secretKey: 'a key for tests only, 32 characters or more',
  jobs: { sendMail: async () => {}, sendText: async () => {} },
} as unknown as Deps
await store.db.selectFrom('business').select('name').execute()
process.stdout.write('ready\n')
await input.next()
process.stdout.write(`${JSON.stringify(await doActs(deps, acts, lanes))}\n`)
await store.close()
