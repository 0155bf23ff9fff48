import { PGlite, type Transaction } from '@electric-sql/pglite'
import { OneConnection } from '../../src/db/postgres-pool.ts'

/** A statement as it was given to the driver. */
export interface Statement {
  text: string
  values: readonly unknown[]
}

let recording: Statement[] | null = null

/** Has the drivers of both stores note what they run, while it is recorded. */
export function listen(): void {
  listenTo(PGlite.prototype, 'query')
  listenTo(OneConnection.prototype, 'run')
  const { transaction } = PGlite.prototype
  PGlite.prototype.transaction = function (act) {
    return transaction.call(this, async (trx: Transaction) => {
      listenTo(trx, 'query')
      return act(trx)
    }) as never
  }
}

function listenTo<Name extends string>(runner: { [name in Name]: unknown }, name: Name): void {
  const run = runner[name] as (...told: unknown[]) => unknown
  runner[name] = function (this: unknown, text: string, values: unknown[] = [], ...more: unknown[]) {
    recording?.push({ text, values })
    return run.call(this, text, values, ...more)
  }
}

/** What was run meanwhile, without the bounds of transactions. */
export async function recorded(work: () => Promise<unknown>): Promise<Statement[]> {
  const statements: Statement[] = []
  recording = statements
  await work()
  recording = null
  return statements.filter(({ text }) => !/^(begin|start transaction|commit)\b/i.test(text))
}
