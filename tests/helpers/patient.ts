import { DEADLINES } from '../../src/db/postgres-pool.ts'

/** A machine that is busy with tests may take longer than somebody should wait for a page: for a connection, or for a lock. */
export const PATIENT = { ...DEADLINES, acquire: 60_000, patience: 60_000, query: 60_000 }
