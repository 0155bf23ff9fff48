import { closeSync, fsyncSync, openSync } from 'node:fs'

/** Forces a folder's list of names to the disk: only then does a file that was just renamed outlive the power. */
export function syncFolder(folder: string): void {
  if (process.platform === 'win32') return
  const opened = openSync(folder, 'r')
  try {
    fsyncSync(opened)
  } finally {
    closeSync(opened)
  }
}
