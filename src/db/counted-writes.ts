import type {
  CompiledQuery,
  DatabaseConnection,
  Dialect,
  Driver,
  QueryResult,
  TransactionSettings,
} from 'kysely'

/** Counts what this process has written by one Kysely. */
export class WriteCount {
  /** Goes up with every statement outside a transaction that may have written, and with every commit of such. */
  value = 0
}

/** The same dialect, whose writes are counted once they can be seen by others. */
export function countingWrites(dialect: Dialect, count: WriteCount): Dialect {
  return {
    createAdapter: () => dialect.createAdapter(),
    createDriver: () => new CountingDriver(dialect.createDriver(), count),
    createIntrospector: db => dialect.createIntrospector(db),
    createQueryCompiler: () => dialect.createQueryCompiler(),
  }
}

class CountingDriver implements Driver {
  readonly #driver: Driver
  readonly #count: WriteCount

  constructor(driver: Driver, count: WriteCount) {
    this.#driver = driver
    this.#count = count
  }

  async init(): Promise<void> {
    await this.#driver.init()
  }

  async acquireConnection(): Promise<CountedConnection> {
    return new CountedConnection(await this.#driver.acquireConnection(), this.#count)
  }

  async beginTransaction(connection: CountedConnection, settings: TransactionSettings): Promise<void> {
    await this.#driver.beginTransaction(connection.inner, settings)
    connection.inTransaction = true
  }

  // One that wasn't acknowledged isn't counted: nobody was told that it is so.
  async commitTransaction(connection: CountedConnection): Promise<void> {
    await this.#driver.commitTransaction(connection.inner)
    if (connection.wrote) this.#count.value++
    connection.inTransaction = connection.wrote = false
  }

  async rollbackTransaction(connection: CountedConnection): Promise<void> {
    connection.inTransaction = connection.wrote = false
    await this.#driver.rollbackTransaction(connection.inner)
  }

  async releaseConnection(connection: CountedConnection): Promise<void> {
    await this.#driver.releaseConnection(connection.inner)
  }

  async destroy(): Promise<void> {
    await this.#driver.destroy()
  }
}

class CountedConnection implements DatabaseConnection {
  readonly inner: DatabaseConnection
  readonly #count: WriteCount
  inTransaction = false
  wrote = false

  constructor(inner: DatabaseConnection, count: WriteCount) {
    this.inner = inner
    this.#count = count
  }

  async executeQuery<R>(query: CompiledQuery): Promise<QueryResult<R>> {
    const result = await this.inner.executeQuery<R>(query)
    if (!onlyReads(query)) {
      if (this.inTransaction) this.wrote = true
      else this.#count.value++
    }
    return result
  }

  streamQuery<R>(query: CompiledQuery, chunkSize: number): AsyncIterableIterator<QueryResult<R>> {
    return this.inner.streamQuery(query, chunkSize)
  }
}

/** Where in doubt false: a `with` may write, and so may SQL that was written by hand. */
function onlyReads({ query }: CompiledQuery): boolean {
  return query.kind === 'SelectQueryNode' && query.with === undefined
}
