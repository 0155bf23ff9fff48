import postgres from 'postgres'
import { Pool } from 'tarn'
import { bind, parsers } from './parsers.ts'
import type { Servers } from './servers.ts'

/** The longest waits, in milliseconds. */
export interface Deadlines {
  /** Of a page for a connection: somebody is looking at it. */
  acquire: number
  /** Of the work in the background for a connection: most restarts of a server are over by then. */
  patience: number
  /** For one connection to be made. */
  connect: number
  /** For the answer to one query. */
  query: number
}

export const DEADLINES: Deadlines = { acquire: 2_000, patience: 10_000, connect: 4_000, query: 5_000 }

/** The database wasn't reached or gave no answer in time, or the connection went away, perhaps after a commit. */
export class ConnectionLost extends Error {
  override name = 'ConnectionLost'
}

type Answer = postgres.RowList<postgres.Row[]> | postgres.RowList<postgres.Row[]>[]

/**
 * One connection by one `postgres` client. The library's own pooling hangs after a server restart (porsager/postgres
 * issues 1168, 1208, 1209, 1217), and its clients reconnect by themselves, which would run the rest of a
 * transaction outside it; so a client that lost its connection is never used again.
 */
export class OneConnection {
  broken = false
  readonly #client: postgres.Sql
  readonly #deadline: number

  constructor(url: string, deadlines: Deadlines) {
    this.#deadline = deadlines.query
    this.#client = postgres(url, {
      max: 1,
      prepare: false,
      fetch_types: false,
      idle_timeout: 0,
      max_lifetime: null,
      connect_timeout: deadlines.connect / 1000,
      // Asked for with the connection, so that a reset leads back to them, whatever the server's own are.
      connection: {
        application_name: 'bedwright',
        TimeZone: 'UTC',
        DateStyle: 'ISO',
        IntervalStyle: 'postgres',
      },
      types: TYPES,
      onnotice: () => {},
      onclose: () => {
        this.broken = true
      },
    })
  }

  /** Runs one statement, or several when there are no parameters; throws ConnectionLost after the deadline. */
  async run(text: string, parameters: readonly unknown[] = []): Promise<Answer> {
    if (this.broken) throw new ConnectionLost('The connection to the database went away.')
    const query = this.#client.unsafe(text, parameters.map(bind))
    const { promise: late, reject } = Promise.withResolvers<never>()
    const giveUp = () => reject(new ConnectionLost('The database gave no answer in time.'))
    const timer = setTimeout(giveUp, this.#deadline)
    try {
      return await Promise.race([parameters.length === 0 ? query.simple() : query, late])
    } catch (error) {
      if (!leavesConnectionSound(error)) this.discard()
      throw isLoss(error)
        ? new ConnectionLost('The connection to the database went away.', { cause: error })
        : error
    } finally {
      clearTimeout(timer)
    }
  }

  discard(): void {
    this.broken = true
    this.#client.end({ timeout: 0 }).catch(() => {})
  }

  async close(): Promise<void> {
    await this.#client.end({ timeout: 1 })
  }
}

/** The connections to a PostgreSQL server: acquiring one waits, through a restart or a change of servers too, until the deadline. */
export class ConnectionPool {
  readonly #pool: Pool<OneConnection>
  readonly #patience: number

  constructor(servers: Servers, deadlines: Deadlines, size = 10) {
    this.#patience = deadlines.patience
    this.#pool = new Pool<OneConnection>({
      min: 0,
      max: size,
      acquireTimeoutMillis: deadlines.patience,
      createTimeoutMillis: deadlines.connect,
      createRetryIntervalMillis: 100,
      create: () => servers.first(url => connect(url, servers.count, deadlines)),
      validate: connection => !connection.broken,
      destroy: connection => connection.close(),
    })
  }

  /** Waits `within` milliseconds at most, and never longer than the patience. */
  async acquire(within = this.#patience): Promise<OneConnection> {
    const pending = this.#pool.acquire()
    const timer = setTimeout(() => pending.abort(), within)
    try {
      return await pending.promise
    } catch (cause) {
      throw new ConnectionLost('The database could not be reached in time.', { cause })
    } finally {
      clearTimeout(timer)
    }
  }

  release(connection: OneConnection): void {
    this.#pool.release(connection)
  }

  /** Runs one text on a connection of its own; after an error that one is thrown away, since it may be inside a transaction. */
  async run(text: string, values: readonly unknown[] = []): Promise<{ rows: unknown[] }> {
    const connection = await this.acquire()
    try {
      return { rows: rowsOf(await connection.run(text, values)) }
    } catch (error) {
      connection.discard()
      throw error
    } finally {
      this.release(connection)
    }
  }

  /** How many connections are used and free, and how many wait for one. */
  counts(): { used: number; free: number; waiting: number } {
    return {
      used: this.#pool.numUsed(),
      free: this.#pool.numFree(),
      waiting: this.#pool.numPendingAcquires(),
    }
  }

  async close(): Promise<void> {
    await this.#pool.destroy()
  }
}

/** The rows of an answer, those of every statement in it where there were several. */
export function rowsOf(answer: Answer): postgres.Row[] {
  return 'command' in answer ? [...answer] : answer.flatMap(one => [...one])
}

// The server's own limit comes first: it ends the statement, and the connection stays good. One that doesn't answer may
// take no longer than leaves time for the others.
async function connect(url: string, servers: number, deadlines: Deadlines): Promise<OneConnection> {
  const connection = new OneConnection(url, { ...deadlines, connect: deadlines.connect / servers })
  try {
    const answer = await connection.run(`
      set statement_timeout to ${Math.ceil(deadlines.query * 0.9)}; set idle_in_transaction_session_timeout to '60s';
      select pg_is_in_recovery() as follows`)
    if (servers > 1 && rowsOf(answer).at(-1)!.follows)
      throw new ConnectionLost('That server follows another one and takes no writes.')
    return connection
  } catch (error) {
    connection.discard()
    throw error
  }
}

// An SQLSTATE means that the server is there and has answered; 08 is a connection's failure, 57P its shutting down.
function leavesConnectionSound(error: unknown): boolean {
  return error instanceof postgres.PostgresError && !isLoss(error)
}

// Besides those, the library's own CONNECTION_CLOSED and its like, and the system's ECONNRESET and its like.
function isLoss(error: unknown): boolean {
  const code = error instanceof Error && 'code' in error ? String(error.code) : ''
  return /^(08...|57P..|CONNECT\w+|E[A-Z]{3,})$/.test(code)
}

const TYPES = Object.fromEntries(
  Object.entries(parsers).map(([oid, parse]): [string, postgres.PostgresType] => [
    oid,
    { to: Number(oid), from: [Number(oid)], parse, serialize: String },
  ]),
)
