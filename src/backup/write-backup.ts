import { createWriteStream, existsSync, statSync } from 'node:fs'
import { open, rename, rm } from 'node:fs/promises'
import { dirname } from 'node:path'
import { Readable, type Writable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { createGzip } from 'node:zlib'
import { type Seal, sealed } from '../lib/age.ts'
import { syncFolder } from '../lib/sync-folder.ts'
import { newNonce } from '../lib/tokens.ts'
import { BackupUnusable, type End } from './format.ts'
import { cannotWrite } from './plain-faults.ts'

/** How lines are packed: until when, and for whom alone; for whoever has the file without a seal. */
export interface Packing {
  signal?: AbortSignal | undefined
  seal?: Seal | null | undefined
}

/**
 * Packs the lines of a backup into a file for this user alone, which has its name only once all of it is on the disk.
 * Gives its size in bytes, and what the last line says.
 * @throws {BackupUnusable} when there is a file of that name, which is never overwritten, or its folder can't be written to
 */
export async function writeBackup(
  lines: AsyncIterable<Uint8Array>,
  file: string,
  { signal, seal }: Packing = {},
): Promise<{ size: number; end: End }> {
  requireFree(file)
  const unfinished = `${file}.${newNonce()}.part`
  try {
    const to = createWriteStream(unfinished, { flags: 'wx', mode: 0o600 })
    const end = await packBackup(lines, to, { signal, seal })
    await syncFile(unfinished)
    requireFree(file)
    await rename(unfinished, file)
    syncFolder(dirname(file))
    return { size: statSync(file).size, end }
  } catch (error) {
    // What went wrong first is what is told.
    await rm(unfinished, { force: true }).catch(() => {})
    throw cannotWrite(error, file)
  }
}

/** The same to any stream, which is ended by it; gives what the last line says. */
export async function packBackup(
  lines: AsyncIterable<Uint8Array>,
  to: Writable,
  { signal, seal }: Packing = {},
): Promise<End> {
  let last = Buffer.alloc(0)
  const seen = async function* (source: AsyncIterable<Uint8Array>) {
    for await (const piece of source) {
      const both = Buffer.concat([last, piece])
      last = both.subarray(both.lastIndexOf('\n', both.length - 2) + 1)
      yield piece
    }
  }
  const source = Readable.from(lines, { objectMode: false })
  if (seal) {
    const close = (packed: AsyncIterable<Uint8Array>) => sealed(packed, seal)
    await pipeline(source, seen, createGzip(), close, to, { signal })
  } else await pipeline(source, seen, createGzip(), to, { signal })
  const [, end] = JSON.parse(last.toString())
  return end
}

async function syncFile(path: string): Promise<void> {
  const file = await open(path, 'r+')
  try {
    await file.sync()
  } finally {
    await file.close()
  }
}

function requireFree(file: string): void {
  if (existsSync(file)) throw new BackupUnusable(`${file} is there already, and is not overwritten.`)
}
