import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import type { Config } from '../config.ts'
import type { Seal } from '../lib/age.ts'

/** Where backups go that nobody named a file for. */
export function backupFolder(dataDir: string): string {
  return join(dataDir, 'backups')
}

/** A name there for a backup of this moment, in UTC, encrypted or not; the folder is made, for this user alone. */
export function newBackupFile(
  dataDir: string,
  prefix: string,
  at: Temporal.Instant,
  seal: Seal | null = null,
): string {
  const folder = backupFolder(dataDir)
  mkdirSync(folder, { recursive: true, mode: 0o700 })
  return join(
    folder,
    `${prefix}-${at.round('second').toString().replaceAll(':', '')}.jsonl.gz${seal ? '.age' : ''}`,
  )
}

/** For whom backups are encrypted by the settings; null where they aren't. */
export function sealOf({ backupRecipients }: Pick<Config, 'backupRecipients'>): Seal | null {
  return backupRecipients.length > 0 ? { recipients: backupRecipients } : null
}
