import { join, relative, resolve } from 'node:path'

/** The shortest that an address of a socket may be on any system, in bytes. */
const MOST_BYTES = 103

/** The folder of the socket, which only its owner can enter. */
export function socketFolder(dataDir: string): string {
  return join(dataDir, 'commands')
}

/**
 * Where the service that has a folder's embedded store open listens for commands; null when the folder's name is too
 * long for that.
 */
export function socketPath(dataDir: string): string | null {
  const path = resolve(socketFolder(dataDir), 'socket')
  const shorter = [path, relative(process.cwd(), path)].sort((a, b) => a.length - b.length)[0]!
  return Buffer.byteLength(shorter) > MOST_BYTES ? null : shorter
}

/** How an answer ends, in the trailer `outcome`: 'done', or what went wrong, as `encodeURIComponent` writes it. */
export const DONE = 'done'
