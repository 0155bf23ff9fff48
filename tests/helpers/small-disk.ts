import { execFileSync } from 'node:child_process'
import { closeSync, mkdtempSync, openSync, rmSync, statfsSync, writeFileSync, writeSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { onTestFinished } from 'vitest'
import type { Environment } from './process.ts'

/** A disk that a test fills up and makes room on again. */
export interface SmallDisk {
  folder: string
  /** What a process must be told so that it meets that disk. */
  environment: Environment
  /** Leaves not a byte. */
  fill(): void
  makeRoom(): void
}

export type KindOfDisk = 'a real one' | 'one that says so'

/**
 * The kind that can be had here: a file system of its own needs the right to mount one, and elsewhere the program is told by
 * the system's calls that there is no room. FULL_DISK=both, as in a long run, wants one of each.
 */
export function kindsOfDisk(): KindOfDisk[] {
  const isReal = mayMount()
  if (process.env.FULL_DISK !== 'both') return [isReal ? 'a real one' : 'one that says so']
  if (!isReal) throw new Error('A file system of its own can’t be mounted here.')
  return ['a real one', 'one that says so']
}

/** Makes one of so many megabytes, which is gone when the test is over. */
export function smallDisk(kind: KindOfDisk, megabytes: number): SmallDisk {
  const folder = mkdtempSync(join(tmpdir(), 'bedwright-disk-'))
  if (kind === 'one that says so') return sayingSo(folder)
  mount(folder, megabytes)
  onTestFinished(() => {
    execFileSync('umount', ['--lazy', folder])
    rmSync(folder, { recursive: true })
  })
  const filler = join(folder, 'filler')
  return { folder, environment: {}, fill: () => fill(filler), makeRoom: () => rmSync(filler) }
}

function sayingSo(folder: string): SmallDisk {
  onTestFinished(() => rmSync(folder, { recursive: true }))
  const flag = join(folder, 'full')
  const program = join(import.meta.dirname, 'says-full.ts')
  return {
    folder,
    environment: { FULL_WHILE: flag, NODE_OPTIONS: `--import ${program}` },
    fill: () => writeFileSync(flag, ''),
    makeRoom: () => rmSync(flag),
  }
}

function mayMount(): boolean {
  const folder = mkdtempSync(join(tmpdir(), 'bedwright-disk-'))
  try {
    mount(folder, 1)
    execFileSync('umount', [folder])
    return true
  } catch {
    return false
  } finally {
    rmSync(folder, { recursive: true })
  }
}

function mount(folder: string, megabytes: number): void {
  const options = ['-t', 'tmpfs', '-o', `size=${megabytes}m,mode=700`]
  execFileSync('mount', [...options, 'bedwright-disk', folder], { stdio: 'pipe' })
}

function fill(file: string): void {
  const opened = openSync(file, 'a')
  try {
    // Down to single bytes, as the last block may be taken by something else.
    for (let size = 1 << 20; size >= 1; size >>= 1) while (isWritten(opened, size));
  } finally {
    closeSync(opened)
  }
  if (statfsSync(file).bavail > 0) throw new Error('The disk is not full.')
}

function isWritten(opened: number, size: number): boolean {
  try {
    return writeSync(opened, Buffer.alloc(size)) === size
  } catch {
    return false
  }
}
