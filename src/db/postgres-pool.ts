import postgres from 'postgres'
import { Pool } from 'tarn'
import { bind, parsers } from './parsers.ts'

/** The longest waits, in milliseconds: for a connection, and for the answer to one query. */
export interface Deadlines {
  acquire: number
  query: number
}

export const DEADLINES: Deadlines = { acquire: 4_000, query: 5_000 }

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
      connect_timeout: deadlines.acquire / 1000,
      connection: { application_name: 'bedwright' },
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
    const timer = setTimeout(
      reject,
      this.#deadline,
      new ConnectionLost('The database gave no answer in time.'),
    )
    try {
      return await Promise.race([parameters.length === 0 ? query.simple() : query, late])
    } catch (error) {
      if (!leavesConnectionSound(error)) this.discard()
      throw error
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

/** The connections to a PostgreSQL server: acquiring one waits, through a restart too, until the deadline. */
export class ConnectionPool {
  readonly #pool: Pool<OneConnection>

  constructor(url: string, deadlines: Deadlines, size = 10) {
    this.#pool = new Pool<OneConnection>({
      min: 0,
      max: size,
      acquireTimeoutMillis: deadlines.acquire,
      createTimeoutMillis: deadlines.acquire,
      createRetryIntervalMillis: 100,
      create: () => connect(url, deadlines),
      validate: connection => !connection.broken,
      destroy: connection => connection.close(),
    })
  }

  async acquire(): Promise<OneConnection> {
    try {
      return await this.#pool.acquire().promise
    } catch (cause) {
      throw new ConnectionLost('The database could not be reached in time.', { cause })
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

  async close(): Promise<void> {
    await this.#pool.destroy()
  }
}

/** The rows of an answer, those of every statement in it where there were several. */
export function rowsOf(answer: Answer): postgres.Row[] {
  return 'command' in answer ? [...answer] : answer.flatMap(one => [...one])
}

// The server's own limit comes first: it ends the statement, and the connection stays good.
async function connect(url: string, deadlines: Deadlines): Promise<OneConnection> {
  const connection = new OneConnection(url, deadlines)
  try {
    await connection.run(`
      set timezone to 'UTC'; set datestyle to 'ISO'; set intervalstyle to 'postgres';
      set statement_timeout to ${Math.ceil(deadlines.query * 0.9)}; set idle_in_transaction_session_timeout to '60s'`)
    return connection
  } catch (error) {
    connection.discard()
    throw error
  }
}

// An SQLSTATE means that the server is there and has answered; 08 is a connection's failure, 57P its shutting down.
function leavesConnectionSound(error: unknown): boolean {
  return error instanceof postgres.PostgresError && !/^(08|57P)/.test(error.code)
}

const TYPES = Object.fromEntries(
  Object.entries(parsers).map(([oid, parse]): [string, postgres.PostgresType] => [
    oid,
    { to: Number(oid), from: [Number(oid)], parse, serialize: String },
  ]),
)
