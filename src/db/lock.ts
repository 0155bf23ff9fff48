import { mkdirSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { DatabaseSync } from 'node:sqlite'

/** Another process holds the folder; the message is one plain line for the person who started this one. */
export class FolderInUse extends Error {
  constructor(folder: string) {
    super(`Another Bedwright is using the folder ${resolve(folder)}. Stop it first.`)
    this.name = 'FolderInUse'
  }
}

export interface FolderLock {
  release(): unknown
}

/**
 * Takes the folder for this process alone, making it when it isn't there; throws FolderInUse within 1 s.
 * The operating system frees the lock however the process ends.
 */
export function lockFolder(folder: string): FolderLock {
  mkdirSync(folder, { recursive: true, mode: 0o700 })
  // Not a pid file: in containers every process is pid 1, and a killed one would leave it behind.
  const file = new DatabaseSync(join(folder, 'in-use.lock'), { timeout: 200 })
  try {
    file.exec('pragma journal_mode = memory; pragma locking_mode = exclusive; begin exclusive')
  } catch (error) {
    file.close()
    if (error instanceof Error && 'errcode' in error && error.errcode === SQLITE_BUSY)
      throw new FolderInUse(folder)
    throw error
  }
  return { release: () => file.isOpen && file.close() }
}

const SQLITE_BUSY = 5
