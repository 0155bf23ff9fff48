import { existsSync } from 'node:fs'
import { cp, mkdtemp, rename, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { inject } from 'vitest'
import { openStore } from '../../src/db/open.ts'

/**
 * A folder of its own with an embedded store in it that has had no migration yet: as the first start leaves it, which
 * makes one once in a run and takes seconds; the others are copies. Remove it when done.
 */
export async function folderWithStore(): Promise<string> {
  const made = inject('madeStore')!
  if (!existsSync(made)) await makeStore(made)
  const folder = await mkdtemp(join(tmpdir(), 'bedwright-folder-'))
  await cp(made, folder, { recursive: true })
  return folder
}

async function makeStore(made: string): Promise<void> {
  const aside = await mkdtemp(`${made}-`)
  const store = await openStore({ dataDir: aside })
  await store.close()
  // Another worker may have been as quick.
  await rename(aside, made).catch(() => rm(aside, { recursive: true }))
}
