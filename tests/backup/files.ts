import { createHash } from 'node:crypto'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { gunzipSync, gzipSync } from 'node:zlib'
import { takeSnapshot } from '../../src/backup/snapshot.ts'
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
      const snapshot = await takeSnapshot(store, at, folder)
      await writeBackup(snapshot.lines(), file).finally(snapshot.close)
      return file
    },
    /** Writes another file, of the same lines as one has but for a change, with an end that fits them. */
    changed: (file: string, change: (lines: string[]) => string[]): string => {
      const lines = gunzipSync(readFileSync(file)).toString().trimEnd().split('\n')
      const [, end] = JSON.parse(lines.at(-1)!)
      const before = change(lines.slice(0, -1))
        .map(line => `${line}\n`)
        .join('')
      const sha256 = createHash('sha256').update(before).digest('hex')
      const other = join(folder, `${++made}.jsonl.gz`)
      writeFileSync(other, gzipSync(`${before}${JSON.stringify(['end', { ...end, sha256 }])}\n`))
      return other
    },
  }
}
