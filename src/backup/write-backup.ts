import { createWriteStream, existsSync, statSync } from 'node:fs'
import { open, rename, rm } from 'node:fs/promises'
import { dirname } from 'node:path'
import { Readable, type Writable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { createGzip } from 'node:zlib'
import { syncFolder } from '../lib/sync-folder.ts'
import { newNonce } from '../lib/tokens.ts'
import { BackupUnusable, type End } from './format.ts'

/**
 * Packs the lines of a backup into a file for this user alone, which has its name only once all of it is on the disk.
 * Gives its size in bytes, and what the last line says.
 * @throws {BackupUnusable} when there is a file of that name; it is never overwritten
 */
export async function writeBackup(
  lines: AsyncIterable<Uint8Array>,
  file: string,
  signal?: AbortSignal,
): Promise<{ size: number; end: End }> {
  requireFree(file)
  const unfinished = `${file}.${newNonce()}.part`
  try {
    const end = await packBackup(lines, createWriteStream(unfinished, { flags: 'wx', mode: 0o600 }), signal)
    await syncFile(unfinished)
    requireFree(file)
    await rename(unfinished, file)
    syncFolder(dirname(file))
    return { size: statSync(file).size, end }
  } catch (error) {
    await rm(unfinished, { force: true })
    throw error
  }
}

/** The same to any stream, which is ended by it; gives what the last line says. */
export async function packBackup(
  lines: AsyncIterable<Uint8Array>,
  to: Writable,
  signal?: AbortSignal,
): Promise<End> {
  let last = Buffer.alloc(0)
  const seen = async function* (source: AsyncIterable<Uint8Array>) {
    for await (const piece of source) {
      const both = Buffer.concat([last, piece])
      last = both.subarray(both.lastIndexOf('\n', both.length - 2) + 1)
      yield piece
    }
  }
  await pipeline(Readable.from(lines, { objectMode: false }), seen, createGzip(), to, { signal })
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
