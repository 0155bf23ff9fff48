import { readdir, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { backupFolder, newBackupFile, sealOf } from '../backup/folder.ts'
import { takeSnapshot } from '../backup/snapshot.ts'
import { writeBackup } from '../backup/write-backup.ts'
import type { Config } from '../config.ts'
import type { Store } from '../db/open.ts'
import { explain } from '../explain.ts'
import type { Seal } from '../lib/age.ts'

const NIGHTLY = 'nightly'
/** How many nights are kept. */
const KEPT = 7

/** What backing up needs. */
export interface BackedUp {
  store: Store
  config: Pick<Config, 'dataDir' | 'backupRecipients'>
  at: Temporal.Instant
}

/**
 * Saves the embedded store into a file of the folder of backups, keeps those of seven nights, and notes how it went; a
 * fault is noted too, and thrown then. A PostgreSQL server is backed up by whoever keeps it: nothing is done.
 */
export async function backUpNightly(backedUp: BackedUp): Promise<void> {
  const { store, config, at } = backedUp
  if (store.kind !== 'embedded') return
  const tried = { tried_at: at.toString() }
  try {
    const seal = sealOf(config)
    const bytes = await saveTo(newBackupFile(config.dataDir, NIGHTLY, at, seal), backedUp, seal)
    await note(store, { ...tried, made_at: at.toString(), bytes, fault: null })
  } catch (error) {
    await note(store, { ...tried, fault: firstLine(explain(error, 'The backup')) })
    throw error
  }
  await sweep(config.dataDir)
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

/** Their names sort by their time. */
async function sweep(dataDir: string): Promise<void> {
  const folder = backupFolder(dataDir)
  const nights = (await readdir(folder)).filter(name => name.startsWith(`${NIGHTLY}-`)).sort()
  for (const name of nights.filter(name => /\.gz(\.age)?$/.test(name)).slice(0, -KEPT))
    await rm(join(folder, name), { force: true })
}

// A fault of ours comes with where it happened, which is for the log alone.
function firstLine(text: string): string {
  return text.split('\n', 1)[0]!
}
