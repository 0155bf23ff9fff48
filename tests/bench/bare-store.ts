import { join } from 'node:path'
import postgres from 'postgres'
import { openEmbedded } from '../../src/db/embedded.ts'
import { bind } from '../../src/db/parsers.ts'
import type { Statement } from './recorder.ts'

/** A driver by itself. */
export interface BareStore {
  /** Runs statements in one transaction. */
  inTransaction(statements: Statement[]): Promise<void>
  close(): Promise<void>
}

export async function bareEmbedded(folder: string): Promise<BareStore> {
  const pglite = await openEmbedded(join(folder, 'store'))
  return {
    inTransaction: statements =>
      pglite.transaction(async trx => {
        for (const { text, values } of statements) await trx.query(text, [...values])
      }),
    close: () => pglite.close(),
  }
}

export function barePostgres(url: string): BareStore {
  const client = postgres(url, { max: 1, prepare: false, fetch_types: false, onnotice: () => {} })
  return {
    inTransaction: async statements => {
      await client.unsafe('start transaction')
      for (const { text, values } of statements) await client.unsafe(text, values.map(bind) as never[])
      await client.unsafe('commit')
    },
    close: () => client.end(),
  }
}
