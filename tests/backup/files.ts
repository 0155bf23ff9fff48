import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { keyMarkOf, takeSnapshot } from '../../src/backup/snapshot.ts'
import { writeBackup } from '../../src/backup/write-backup.ts'
import type { Store } from '../../src/db/open.ts'

/** A folder for the files of a test file; `remove` it when done. */
export function backupFolder() {
  const folder = mkdtempSync(join(tmpdir(), 'bedwright-backup-'))
  let made = 0
  return {
    folder,
    remove: () => rmSync(folder, { recursive: true }),
    /** Backs a store up into a file there, and gives its path. */
    backUp: async (store: Store, at = Temporal.Instant.from('2026-03-02T16:00:00Z')): Promise<string> => {
      const file = join(folder, `${++made}.jsonl.gz`)
      const snapshot = await takeSnapshot(store, { at, keyMark: keyMarkOf('a key of these tests') }, folder)
      await writeBackup(snapshot.lines(), file).finally(snapshot.close)
      return file
    },
  }
}
