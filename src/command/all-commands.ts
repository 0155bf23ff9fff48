import { backup } from './backup.ts'
import type { Command } from './command.ts'
import { keyReplace } from './key-replace.ts'
import { ownerReset } from './owner-reset.ts'
import { restore } from './restore.ts'
import { settings } from './settings.ts'

/** Every command, in the order in which they are listed. */
export const allCommands: Command[] = [ownerReset, backup, restore, keyReplace, settings]
