import { explain } from '../explain.ts'
import { CommandFault, Misused } from './command.ts'

/** Why a command failed, in one plain line wherever a person can do something about it. */
export function inOneLine(error: unknown): string {
  if (error instanceof CommandFault || error instanceof Misused) return error.message
  if (error instanceof Error && error.name === 'AbortError') return 'Stopped before it was done.'
  return explain(error, 'The command')
}
