import type { GeneratedAlways } from 'kysely'

/** Who took the data of a customer, or of everybody, out or erased it, by numbers alone; by the nightly work where there is no account. */
export interface AccessLogTable {
  id: GeneratedAlways<number>
  at: string
  account_id: number | null
  verb: 'exported' | 'customers exported' | 'books exported' | 'erased' | 'papers erased'
  customer_id: number | null
  /** The numbers of the requests. */
  requests: string[]
}
