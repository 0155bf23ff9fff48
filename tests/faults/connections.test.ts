import { once } from 'node:events'
import { type AddressInfo, createServer, type Socket } from 'node:net'
import { sql } from 'kysely'
import { afterAll, beforeAll, expect, onTestFinished, test } from 'vitest'
import { openStore, type Store } from '../../src/db/open.ts'
import { ConnectionLost } from '../../src/db/postgres-pool.ts'
import { type PostgresServer, startServer } from '../helpers/postgres-server.ts'
import { until } from '../helpers/until.ts'

const deadlines = { acquire: 1_000, patience: 1_000, connect: 1_000, query: 1_000 }
let server: PostgresServer
let other: Store

beforeAll(async () => {
  server = await startServer()
  other = await openStore({ dataDir: '', databaseUrl: server.url })
  await other.executeSql('create table crate (id integer)')
})

afterAll(async () => {
  await other.close()
  await server.stop()
})

test('the rest of a transaction whose connection went away is refused, not run outside it', async () => {
  const store = await opened(server.url)
  const cut = store.db.transaction().execute(async trx => {
    const { rows } = await sql<{ pid: number }>`select pg_backend_pid() as pid`.execute(trx)
    await sql`insert into crate values (1)`.execute(trx)
    await other.executeSql('select pg_terminate_backend($1, 5000)', [rows[0]!.pid])
    await sql`insert into crate values (2)`.execute(trx).catch(() => {})
    await sql`insert into crate values (3)`.execute(trx)
  })
  await expect(cut).rejects.toThrow('The connection to the database went away.')
  expect((await store.executeSql('select id from crate')).rows).toEqual([])
})

test('a query that takes too long is ended by the server, and its connection is as good as before', async () => {
  // Half a second between the server's limit and ours, as the browser's tests keep the machine busy meanwhile.
  const store = await opened(server.url, { ...deadlines, query: 5_000 })
  await expect(store.db.connection().execute(one => sql`select pg_sleep(60)`.execute(one))).rejects.toThrow(
    'statement timeout',
  )
  expect((await store.executeSql('select 1 as one')).rows).toEqual([{ one: 1 }])
})

test('a server that takes the connection and says nothing is given up at the deadline', async () => {
  const mute = createServer()
  const sockets: Socket[] = []
  mute.on('connection', socket => sockets.push(socket))
  mute.listen(0, '127.0.0.1')
  await once(mute, 'listening')
  onTestFinished(() => {
    for (const socket of sockets) socket.destroy()
    mute.close()
  })
  const store = await opened(`postgres://postgres@127.0.0.1:${(mute.address() as AddressInfo).port}/postgres`)
  const start = performance.now()
  await expect(store.executeSql('select 1')).rejects.toThrow('The database could not be reached in time.')
  expect(performance.now() - start).toBeLessThan(2 * deadlines.acquire)
})

test('a server that falls silent in the middle of a query is given up at the deadline', async () => {
  const store = await opened(server.url)
  const silent = store.db.connection().execute(async one => {
    // The server's own limit is lifted, so that ours alone ends the wait.
    await sql`set statement_timeout to 0`.execute(one)
    await sql`select pg_sleep(5)`.execute(one)
  })
  await expect(silent).rejects.toThrow(ConnectionLost)
  expect((await store.executeSql('show statement_timeout')).rows).toEqual([{ statement_timeout: '900ms' }])
})

test('when every connection is taken, the next who asks is refused at the deadline, and served later', async () => {
  const store = await opened(server.url)
  const free = Promise.withResolvers<void>()
  let held = 0
  const hold = () =>
    store.db.connection().execute(() => {
      held++
      return free.promise
    })
  const holding = Promise.all(Array.from({ length: 10 }, hold))
  await until(() => held === 10, { what: 'every connection to be taken' })
  await expect(store.executeSql('select 1')).rejects.toThrow('The database could not be reached in time.')
  free.resolve()
  await holding
  expect((await store.executeSql('select 1 as one')).rows).toEqual([{ one: 1 }])
})

test('when every connection is taken, a page gives up first, and the work in the background waits on', async () => {
  const store = await opened(server.url, { ...deadlines, acquire: 100, patience: 60_000 })
  const free = Promise.withResolvers<void>()
  let held = 0
  const hold = () =>
    store.patientDb.connection().execute(() => {
      held++
      return free.promise
    })
  const holding = Promise.all(Array.from({ length: 10 }, hold))
  await until(() => held === 10, { what: 'every connection to be taken' })
  const inBackground = Promise.all([
    store.executeSql('select 1 as one'),
    sql`select 2 as two`.execute(store.patientDb),
  ])
  await expect(sql`select 3 as three`.execute(store.db)).rejects.toThrow(ConnectionLost)
  free.resolve()
  await holding
  expect((await inBackground).map(({ rows }) => rows)).toEqual([[{ one: 1 }], [{ two: 2 }]])
  expect((await sql`select 3 as three`.execute(store.db)).rows).toEqual([{ three: 3 }])
})

test('a connection that the server ends is told apart from a statement that it refuses', async () => {
  const store = await opened(server.url)
  const ended = store.db.connection().execute(async one => {
    const { rows } = await sql<{ pid: number }>`select pg_backend_pid() as pid`.execute(one)
    await Promise.all([
      sql`select pg_sleep(60)`.execute(one),
      other.executeSql('select pg_terminate_backend($1, 5000)', [rows[0]!.pid]),
    ])
  })
  await expect(ended).rejects.toThrow(ConnectionLost)
  await expect(sql`select 1 / 0`.execute(store.db)).rejects.toThrow('division by zero')
})

async function opened(databaseUrl: string, within = deadlines): Promise<Store> {
  const store = await openStore({ dataDir: '', databaseUrl, deadlines: within })
  onTestFinished(store.close)
  return store
}
