import { backupFolder, newBackupFile, sealOf } from '../backup/folder.ts'
import { takeSnapshot } from '../backup/snapshot.ts'
import { writeBackup } from '../backup/write-backup.ts'
import type { Config } from '../config.ts'
import type { Store } from '../db/open.ts'
import { explain } from '../explain.ts'
import type { Seal } from '../lib/age.ts'
import { sweepBackups, sweepUnfinished } from './sweep-backups.ts'

const NIGHTLY = 'nightly'

/** What backing up needs. */
export interface BackedUp {
  store: Store
  config: Pick<Config, 'dataDir' | 'backupRecipients'>
  at: Temporal.Instant
}

/**
 * Saves the embedded store into a file of the folder of backups, and notes how it went; a fault is noted too, and thrown
 * then. A PostgreSQL server is backed up by whoever keeps it. With either, what is past its time in that folder goes.
 */
export async function backUpNightly(backedUp: BackedUp): Promise<void> {
  const { store, config, at } = backedUp
  // First: what is left behind may be what fills the disk.
  await sweepUnfinished(config.dataDir, at)
  if (store.kind === 'embedded') await saveNight(backedUp)
  await sweepBackups(config.dataDir, at)
}

async function saveNight(backedUp: BackedUp): Promise<void> {
  const { store, config, at } = backedUp
  const tried = { tried_at: at.toString() }
  try {
    const seal = sealOf(config)
    const bytes = await saveTo(newBackupFile(config.dataDir, NIGHTLY, at, seal), backedUp, seal)
    await note(store, { ...tried, made_at: at.toString(), bytes, fault: null })
  } catch (error) {
    await note(store, { ...tried, fault: firstLine(explain(error, 'The backup')) })
    throw error
  }
}

/** The same of either store in a file that is kept, as before its tables are changed, perhaps sealed for somebody else too; gives the file. */
export async function backUpBefore(
  what: string,
  backedUp: BackedUp,
  seal = sealOf(backedUp.config),
): Promise<string> {
  const file = newBackupFile(backedUp.config.dataDir, `before-${what}`, backedUp.at, seal)
  await saveTo(file, backedUp, seal)
  return file
}

async function saveTo(file: string, { store, config, at }: BackedUp, seal: Seal | null): Promise<number> {
  const snapshot = await takeSnapshot(store, at, backupFolder(config.dataDir))
  try {
    const { size } = await writeBackup(snapshot.lines(), file, { seal })
    return size
  } finally {
    await snapshot.close()
  }
}

async function note(
  { db }: Store,
  row: { tried_at: string; made_at?: string; bytes?: number; fault: string | null },
): Promise<void> {
  await db
    .insertInto('store_backup')
    .values({ made_at: null, bytes: null, ...row })
    .onConflict(conflict => conflict.column('only').doUpdateSet(row))
    .execute()
}

// A fault of ours comes with where it happened, which is for the log alone.
function firstLine(text: string): string {
  return text.split('\n', 1)[0]!
}
