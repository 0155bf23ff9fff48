/**
 * A process of its own that books and moves on a server's database. Its only argument is JSON: the server's address, the
 * moment it is and what to do. It says that it is ready, does all of it at once when its standard input ends, and prints
 * as JSON what became of each: null, or why it was refused.
 */
import { once } from 'node:events'
import { openStore } from '../../src/db/open.ts'
import type { Deps } from '../../src/deps.ts'
import { Conflict } from '../../src/http/errors.ts'
import { keepStanding } from '../../src/rates/standing.ts'
import { type Act, doAct } from './acts.ts'

const { databaseUrl, at, acts } = JSON.parse(process.argv[2]!) as {
  databaseUrl: string
  at: string
  acts: Act[]
}
const store = await openStore({ dataDir: '', databaseUrl })
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
process.stdin.resume()
await once(process.stdin, 'end')
const done = await Promise.allSettled(acts.map(act => doAct(deps, act)))
const said = done.map(one => {
  if (one.status === 'fulfilled') return null
  return one.reason instanceof Conflict ? 'refused' : String(one.reason?.stack ?? one.reason)
})
process.stdout.write(`${JSON.stringify(said)}\n`)
await store.close()
