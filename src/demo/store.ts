import fs from 'node:fs'
import { join } from 'node:path'
import { lockFolder } from '../db/lock.ts'

const UNFINISHED = 'being-filled'

/**
 * Makes room for a new demonstration: when it is asked for, or when the last filling was broken off half way.
 * @throws {FolderInUse} when another process is using the folder
 */
export function clearDemo(folder: string, fresh: boolean): void {
  if (!fresh && !fs.existsSync(join(folder, UNFINISHED))) return
  const lock = lockFolder(folder)
  try {
    // Clearing may be broken off as well, and a store without its key, or with another's, would not open.
    fs.writeFileSync(join(folder, UNFINISHED), '')
    for (const part of ['store', 'secret-key', 'erased.jsonl', UNFINISHED])
      fs.rmSync(join(folder, part), { recursive: true, force: true })
  } finally {
    lock.release()
  }
}

/** Marks the folder while it is being filled, so that a filling broken off is noticed at the next start. */
export async function whileUnfinished(folder: string, fill: () => Promise<void>): Promise<void> {
  const mark = join(folder, UNFINISHED)
  fs.writeFileSync(mark, '')
  await fill()
  fs.rmSync(mark)
}
