/**
 * A process that writes as hard as it can until its standard input closes or it is killed. Its only argument is
 * JSON: what `openStore` takes, the number of `workers`, and the first id to use. Each worker inserts an entry
 * with two lines in one transaction and prints `ack <id> <worker> <ms>` once that is committed, or
 * `fail <id> <worker> <ms> <why>`. Anything uncaught is printed as `uncaught <why>`.
 */
import { type Kysely, sql } from 'kysely'
import { openStore } from '../../src/db/open.ts'

interface Tables {
  entry: { id: number }
  entry_line: { entry_id: number; line: number }
}

process.on('uncaughtException', error => process.stdout.write(`uncaught ${error.message}\n`))
process.on('unhandledRejection', error => process.stdout.write(`uncaught ${error}\n`))

const { workers, first, ...options } = JSON.parse(process.argv[2]!)
const store = await openStore(options)
const db = store.db as unknown as Kysely<Tables>
let stopping = false
let next: number = first

await store.executeSql(`
  create table if not exists entry (id bigint primary key);
  create table if not exists entry_line (entry_id bigint references entry, line integer, primary key (entry_id, line))`)
process.stdin.on('end', () => {
  stopping = true
})
process.stdin.resume()
process.stdout.write('ready\n')
await Promise.all(Array.from({ length: workers }, (_, worker) => work(worker)))
await store.close()

async function work(worker: number): Promise<void> {
  while (!stopping) {
    const id = next++
    const start = performance.now()
    const said = await write(id).then(
      () => 'ack',
      error => `fail ${id} ${error.message}`,
    )
    const [verb, ...why] = said.split(' ')
    const spent = Math.round(performance.now() - start)
    process.stdout.write(`${[verb, id, worker, spent, ...why.slice(1)].join(' ').replaceAll('\n', ' ')}\n`)
  }
}

async function write(id: number): Promise<void> {
  await db.transaction().execute(async trx => {
    await trx.insertInto('entry').values({ id }).execute()
    await trx
      .insertInto('entry_line')
      .values([{ entry_id: id, line: 1 }])
      .execute()
    await sql`insert into entry_line values (${id}, 2)`.execute(trx)
  })
}
