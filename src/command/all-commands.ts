import { backup } from './backup.ts'
import type { Command } from './command.ts'
import { doctor } from './doctor.ts'
import { keyCheck } from './key-check.ts'
import { keyReplace } from './key-replace.ts'
import { move } from './move.ts'
import { ownerReset } from './owner-reset.ts'
import { restore } from './restore.ts'
import { settings } from './settings.ts'
import { testMail } from './test-mail.ts'

/** Every command, in the order in which they are listed. */
export const allCommands: Command[] = [
  ownerReset,
  backup,
  restore,
  move,
  doctor,
  testMail,
  keyCheck,
  keyReplace,
  settings,
]
