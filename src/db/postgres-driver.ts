import {
  AbortedTransactionError,
  type CompiledQuery,
  type DatabaseConnection,
  type Dialect,
  type Driver,
  PostgresAdapter,
  PostgresIntrospector,
  PostgresQueryCompiler,
  type QueryResult,
  type TransactionSettings,
} from 'kysely'
import { askedFrom } from './asked-from.ts'
import { type ConnectionPool, type OneConnection, rowsOf } from './postgres-pool.ts'

/** Kysely's dialect over our pool of one-connection clients, waiting `within` ms for one; destroying it closes the pool. */
export function postgresDialect(pool: ConnectionPool, within?: number): Dialect {
  return {
    createAdapter: () => new PostgresAdapter(),
    createDriver: () => new PostgresDriver(pool, within),
    createIntrospector: db => new PostgresIntrospector(db),
    createQueryCompiler: () => new PostgresQueryCompiler(),
  }
}

class PostgresDriver implements Driver {
  readonly #pool: ConnectionPool
  readonly #within: number | undefined

  constructor(pool: ConnectionPool, within: number | undefined) {
    this.#pool = pool
    this.#within = within
  }

  async init(): Promise<void> {}

  async acquireConnection(): Promise<PooledConnection> {
    return new PooledConnection(await this.#pool.acquire(this.#within))
  }

  async beginTransaction({ held }: PooledConnection, settings: TransactionSettings): Promise<void> {
    const isolation = settings.isolationLevel ? ` isolation level ${settings.isolationLevel}` : ''
    const access = settings.accessMode ? ` ${settings.accessMode}` : ''
    await held.run(`start transaction${isolation}${access}`)
  }

  // After a failed statement whose error was swallowed, PostgreSQL answers COMMIT with ROLLBACK and no error.
  async commitTransaction({ held }: PooledConnection): Promise<void> {
    const answer = await held.run('commit')
    if ('command' in answer && answer.command === 'ROLLBACK') throw new AbortedTransactionError()
  }

  async rollbackTransaction({ held }: PooledConnection): Promise<void> {
    try {
      await held.run('rollback')
    } catch (error) {
      held.discard()
      throw error
    }
  }

  async releaseConnection({ held }: PooledConnection): Promise<void> {
    this.#pool.release(held)
  }

  async destroy(): Promise<void> {
    await this.#pool.close()
  }
}

class PooledConnection implements DatabaseConnection {
  readonly held: OneConnection

  constructor(held: OneConnection) {
    this.held = held
  }

  async executeQuery<R>(query: CompiledQuery): Promise<QueryResult<R>> {
    const answer = await askedFrom(() => this.held.run(query.sql, query.parameters))
    const rows = rowsOf(answer) as R[]
    const changes = 'command' in answer && ['INSERT', 'UPDATE', 'DELETE', 'MERGE'].includes(answer.command)
    return changes ? { rows, numAffectedRows: BigInt(answer.count) } : { rows }
  }

  // biome-ignore lint/correctness/useYield: the interface asks for a generator; nothing here streams
  async *streamQuery<R>(): AsyncIterableIterator<QueryResult<R>> {
    throw new Error('Streaming is not supported.')
  }
}
