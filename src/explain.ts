import { StoreNotEmpty } from './backup/empty-store.ts'
import { BackupUnusable } from './backup/format.ts'
import { ConfigFaults } from './config.ts'
import { StoreUnusable } from './db/embedded.ts'
import { FolderInUse } from './db/lock.ts'
import { StoreIsNewer } from './db/migrate.ts'
import { ConnectionLost } from './db/postgres-pool.ts'
import { KeyUnusable } from './secret-key.ts'

const TELLS_ITSELF = [
  ConfigFaults,
  FolderInUse,
  StoreUnusable,
  StoreIsNewer,
  KeyUnusable,
  StoreNotEmpty,
  BackupUnusable,
]
const SAYS_ENOUGH = ['EACCES', 'EADDRNOTAVAIL', 'EISDIR', 'ENOENT', 'ENOTDIR', 'EPERM', 'EPIPE', 'EROFS']
/** As the system says it, as it says it of a user's share, and as PostgreSQL does. */
const DISK_IS_FULL = ['ENOSPC', 'EDQUOT', '53100']

/**
 * Why something failed that a person has started, as 'The start': one plain line where that person can do something
 * about it, or else where it happened.
 */
export function explain(error: unknown, what: string): string {
  const { name, code, message, port, stack } = error as NodeJS.ErrnoException & { port?: number }
  if (TELLS_ITSELF.some(kind => error instanceof kind)) return message
  if (code && DISK_IS_FULL.includes(code)) return `${what} failed: the disk is full. Make room on it.`
  if (code === 'EADDRINUSE') return `Port ${port} is taken. Stop what’s using it, or set PORT to another one.`
  if (error instanceof ConnectionLost) {
    return 'The database isn’t answering. Is DATABASE_URL right, and is the server running?'
  }
  if (name === 'PostgresError' && message.includes('pg_trgm')) {
    return 'The database needs the extension pg_trgm. Its administrator adds it by running in it: create extension pg_trgm'
  }
  if (name === 'PostgresError') return `The database refused: ${message}.`
  if (code && SAYS_ENOUGH.includes(code)) return `${what} failed: ${message}.`
  return `${what} failed: ${stack}`
}
