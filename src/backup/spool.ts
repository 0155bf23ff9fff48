import { mkdir, open, rm } from 'node:fs/promises'
import { join } from 'node:path'
import { newNonce } from '../lib/tokens.ts'

const PIECE = 256 * 1024

/** A file without a name: written once, read once, and gone however the process ends. */
export interface Spool {
  write(text: string): Promise<void>
  /** What was written, from the beginning. */
  read(): AsyncIterable<Buffer>
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
  return {
    write: async text => void (await file.appendFile(text)),
    async *read() {
      for (let at = 0; ; ) {
        const { bytesRead, buffer } = await file.read(Buffer.allocUnsafe(PIECE), 0, PIECE, at)
        if (bytesRead === 0) return
        at += bytesRead
        yield buffer.subarray(0, bytesRead)
      }
    },
    close: () => file.close(),
  }
}
