import {
  AbortedTransactionError,
  type CompiledQuery,
  type DatabaseConnection,
  type Dialect,
  type Driver,
  PGliteAdapter,
  PostgresIntrospector,
  PostgresQueryCompiler,
  type QueryResult,
  type TransactionSettings,
} from 'kysely'
import { askedFrom } from './asked-from.ts'
import type { PreparedStatements } from './prepared-statements.ts'

/** Kysely's dialect over the statements of one PGlite, which stays open when it is destroyed. */
export function embeddedDialect(statements: PreparedStatements): Dialect {
  return {
    // Has Kysely give out one connection at a time.
    createAdapter: () => new PGliteAdapter(),
    createDriver: () => new EmbeddedDriver(statements),
    createIntrospector: db => new PostgresIntrospector(db),
    createQueryCompiler: () => new PostgresQueryCompiler(),
  }
}

class EmbeddedDriver implements Driver {
  readonly #statements: PreparedStatements
  readonly #connection: EmbeddedConnection

  constructor(statements: PreparedStatements) {
    this.#statements = statements
    this.#connection = new EmbeddedConnection(statements)
  }

  async init(): Promise<void> {}

  async acquireConnection(): Promise<EmbeddedConnection> {
    return this.#connection
  }

  async beginTransaction(_: DatabaseConnection, settings: TransactionSettings): Promise<void> {
    const isolation = settings.isolationLevel ? ` isolation level ${settings.isolationLevel}` : ''
    const access = settings.accessMode ? ` ${settings.accessMode}` : ''
    await this.#statements.run(`start transaction${isolation}${access}`)
  }

  // After a failed statement whose error was swallowed, PostgreSQL answers COMMIT with ROLLBACK and no error.
  async commitTransaction(): Promise<void> {
    const { command } = await this.#statements.run('commit')
    if (command === 'ROLLBACK') throw new AbortedTransactionError()
  }

  async rollbackTransaction(): Promise<void> {
    await this.#statements.run('rollback')
  }

  async releaseConnection(): Promise<void> {}

  async destroy(): Promise<void> {}
}

class EmbeddedConnection implements DatabaseConnection {
  readonly #statements: PreparedStatements

  constructor(statements: PreparedStatements) {
    this.#statements = statements
  }

  async executeQuery<R>({ sql, parameters }: CompiledQuery): Promise<QueryResult<R>> {
    const { rows, changed } = await askedFrom(() => this.#statements.run(sql, parameters))
    return changed === undefined ? { rows: rows as R[] } : { rows: rows as R[], numAffectedRows: changed }
  }

  // biome-ignore lint/correctness/useYield: the interface asks for a generator; nothing here streams
  async *streamQuery<R>(): AsyncIterableIterator<QueryResult<R>> {
    throw new Error('Streaming is not supported.')
  }
}
