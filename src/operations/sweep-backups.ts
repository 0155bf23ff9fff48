import { readdir, rm, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { backupFolder } from '../backup/folder.ts'

/** How many nightly backups are kept. */
const KEPT = 7
/** For how long one is kept that was made before an update or a move. */
const WEEK = { hours: 7 * 24 }
/** What is unfinished for so long was broken off: it takes minutes to make one. */
const BROKEN_OFF = { hours: 24 }

const NIGHTLY = /^nightly-(.*)\.jsonl\.gz(?:\.age)?$/
const BEFORE = /^before-(update|move)-(.*)\.jsonl\.gz(?:\.age)?$/
/** As `writeBackup` calls it until all of it is on the disk. */
const UNFINISHED = /\.[0-9a-f]{32}\.part$/

/** Deletes what a process that was killed left behind of backups in their folder. */
export async function sweepUnfinished(dataDir: string, now: Temporal.Instant): Promise<void> {
  const before = now.subtract(BROKEN_OFF).epochMilliseconds
  for (const name of (await namesIn(dataDir)).filter(name => UNFINISHED.test(name))) {
    const file = join(backupFolder(dataDir), name)
    const found = await stat(file).catch(() => null)
    if (found && found.mtimeMs < before) await rm(file, { force: true })
  }
}

/**
 * Deletes all nightly backups but those of the last seven nights, and those made before an update or a move that are
 * older than a week; of these the last one of either kind stays until there is a later nightly one. Whatever else is in
 * the folder stays.
 */
export async function sweepBackups(dataDir: string, now: Temporal.Instant): Promise<void> {
  const names = await namesIn(dataDir)
  const nights = names.filter(name => NIGHTLY.test(name))
  const old = [...nights.slice(0, -KEPT), ...oldBefore(names, now)]
  for (const name of old) await rm(join(backupFolder(dataDir), name), { force: true })
}

// A backup has its name only once it is whole, and names sort by their time.
function oldBefore(names: string[], now: Temporal.Instant): string[] {
  const lastNight = names.flatMap(name => NIGHTLY.exec(name)?.[1] ?? []).at(-1) ?? ''
  const weekAgo = inName(now.subtract(WEEK))
  return ['update', 'move'].flatMap(what => {
    const made = names.filter(name => BEFORE.exec(name)?.[1] === what)
    const madeAt = (name: string) => BEFORE.exec(name)![2]!
    return made.filter(
      (name, index) => madeAt(name) < weekAgo && (index < made.length - 1 || madeAt(name) < lastNight),
    )
  })
}

/** As `newBackupFile` writes it. */
function inName(at: Temporal.Instant): string {
  return at.round('second').toString().replaceAll(':', '')
}

async function namesIn(dataDir: string): Promise<string[]> {
  const names = await readdir(backupFolder(dataDir)).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT' || error.code === 'ENOTDIR') return []
    throw error
  })
  return names.sort()
}
