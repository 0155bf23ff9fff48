import { dirname } from 'node:path'
import { BackupUnusable } from './format.ts'

const NOT_THERE = ['ENOENT', 'ENOTDIR']
const NOT_ALLOWED = ['EACCES', 'EPERM', 'EROFS']

/** What went wrong with reading a file that somebody named, in a plain sentence where the system's code has one; else as it was. */
export function cannotRead(error: unknown, file: string): unknown {
  const { code = '' } = error as NodeJS.ErrnoException
  if (NOT_THERE.includes(code)) return new BackupUnusable(`There’s no file ${file}.`)
  if (code === 'EISDIR') return new BackupUnusable(`${file} is a folder, not a backup.`)
  if (NOT_ALLOWED.includes(code)) return new BackupUnusable(`${file} can’t be read by this user.`)
  return error
}

/** The same of a file that was to be written, under a name that begins with its own; what its lines came from may fail too. */
export function cannotWrite(error: unknown, file: string): unknown {
  const { code = '', path } = error as NodeJS.ErrnoException
  if (!path?.startsWith(file)) return error
  const folder = dirname(file)
  if (NOT_THERE.includes(code)) return new BackupUnusable(`There’s no folder ${folder} to write to.`)
  if (code === 'EROFS') return new BackupUnusable(`Nothing can be written to ${folder}: it’s read-only.`)
  if (NOT_ALLOWED.includes(code)) return new BackupUnusable(`This user may not write to ${folder}.`)
  return error
}
