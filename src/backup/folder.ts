import { mkdirSync } from 'node:fs'
import { join } from 'node:path'

/** Where backups go that nobody named a file for. */
export function backupFolder(dataDir: string): string {
  return join(dataDir, 'backups')
}

/** A name there for a backup of this moment, in UTC; the folder is made, for this user alone. */
export function newBackupFile(dataDir: string, prefix: string, at: Temporal.Instant): string {
  const folder = backupFolder(dataDir)
  mkdirSync(folder, { recursive: true, mode: 0o700 })
  return join(folder, `${prefix}-${at.round('second').toString().replaceAll(':', '')}.jsonl.gz`)
}
