import { mkdir, open, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { isFull } from '../db/room-for-log.ts'
import { newNonce } from '../lib/tokens.ts'

const PIECE = 256 * 1024

/** Where something stands in a spool: from a byte on up to another. */
export type Range = [from: number, to: number]

/** A file without a name, which is gone however the process ends. */
export interface Spool {
  /** Adds to its end, and gives where that stands. */
  write(text: string): Promise<Range>
  read(range: Range): AsyncIterable<Buffer>
  close(): Promise<void>
}

/** Opens a spool in a folder, which is made for this user alone when it isn't there. */
export async function openSpool(folder: string): Promise<Spool> {
  await mkdir(folder, { recursive: true, mode: 0o700 })
  const name = join(folder, `.spool-${newNonce()}`)
  const file = await open(name, 'wx+', 0o600)
  // It can still be written and read, and not even a kill leaves it behind.
  await rm(name).catch(async error => {
    await file.close()
    throw error
  })
  let size = 0
  return {
    write: async text => {
      // The store beside it is to go on.
      if (isFull(folder)) throw Object.assign(new Error('The disk is full.'), { code: 'ENOSPC' })
      const bytes = Buffer.from(text)
      const from = size
      size += bytes.length
      await file.appendFile(bytes)
      return [from, size]
    },
    async *read([from, to]) {
      for (let at = from; at < to; ) {
        const length = Math.min(PIECE, to - at)
        const { bytesRead, buffer } = await file.read(Buffer.allocUnsafe(length), 0, length, at)
        if (bytesRead === 0) throw new Error('The spool of a backup is shorter than what was written to it.')
        at += bytesRead
        yield buffer.subarray(0, bytesRead)
      }
    },
    close: () => file.close(),
  }
}
