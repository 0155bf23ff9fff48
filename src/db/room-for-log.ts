import fs from 'node:fs'

/** What is left of the disk for the log that each commit is written to: four of its segments, in bytes. */
const LEFT_FOR_LOG = 64 * 1024 * 1024
/** ENOSPC, as PGlite's system calls number it. */
const NO_SPACE = 51
const LOG = '/pg_wal/'

interface Stream {
  nfd?: number
  path?: string
}

type Write = (stream: Stream, buffer: Uint8Array, offset: number, length: number, position: number) => number

/** What is used here of the inner part of PGlite by which it writes files. */
export interface FileSystem {
  FS: { ErrnoError: new (errno: number) => Error }
  NODEFS: { stream_ops: { write: Write } }
}

/** Whether so little of the disk that a folder is on is free that only the log may still grow. */
export function isFull(folder: string): boolean {
  const { bavail, bsize, blocks } = fs.statfsSync(folder)
  // Some file systems tell nothing of themselves.
  return blocks > 0 && bavail * bsize < LEFT_FOR_LOG
}

/**
 * Has files of the embedded store refused to grow, as by a full disk, while there is still room for its log. PostgreSQL
 * refuses a row that has no room, and goes on; where its log has none it ends, and PGlite instead turns round and round
 * for ever. Should that happen all the same, as others use the disk too, `giveUp` is called, which must end the process.
 */
export function leaveRoomForLog({ FS, NODEFS }: FileSystem, folder: string, giveUp: () => never): void {
  const { write } = NODEFS.stream_ops
  NODEFS.stream_ops.write = (stream, buffer, offset, length, position) => {
    const isLog = stream.path?.includes(LOG) ?? false
    if (!isLog && grows(stream, position + length) && isFull(folder)) throw new FS.ErrnoError(NO_SPACE)
    try {
      return write(stream, buffer, offset, length, position)
    } catch (error) {
      if (isLog && isNoSpace(error)) giveUp()
      throw error
    }
  }
}

function grows({ nfd }: Stream, end: number): boolean {
  return nfd !== undefined && end > fs.fstatSync(nfd).size
}

function isNoSpace(error: unknown): boolean {
  return (error as { errno?: number }).errno === NO_SPACE
}
