import { existsSync, statSync } from 'node:fs'
import { resolve } from 'node:path'
import { CommandFault } from './command.ts'

/**
 * Refuses a data folder of another user, root too: files made in it now could not be opened by that one later.
 * @throws {CommandFault}
 */
export function requireOwnFolder(dataDir: string): void {
  if (process.getuid && existsSync(dataDir) && statSync(dataDir).uid !== process.getuid())
    throw new CommandFault(othersFolder(dataDir))
}

export function othersFolder(dataDir: string): string {
  return `The folder ${resolve(dataDir)} belongs to another user. Run this as that user.`
}
