import type { Writable } from 'node:stream'
import type { ParseArgsConfig } from 'node:util'
import type { Config } from '../config.ts'
import type { Store } from '../db/open.ts'
import type { Arrivals } from '../http/arrivals.ts'
import type { Now } from '../lib/dates.ts'

/** The words and options that followed a command. */
export interface Asked {
  words: string[]
  options: Record<string, unknown>
}

/** What a command has where it was typed. */
export interface Here {
  config: Config
  env: Record<string, string | undefined> | undefined
  now: Now
  /** Standard output. */
  out: Writable & { isTTY?: boolean }
  /** A line on standard output, and one beside it on standard error. */
  say(line: string): void
  sayAside(line: string): void
  /** Lets Ctrl+C and SIGTERM be told instead of ending the process at once. */
  interruption(): AbortSignal
  /** Has the command's `atStore` done, and gives what that says. */
  ask(input?: Input): AsyncIterable<Uint8Array>
}

/** What a command hands to its `atStore`, perhaps in another process. */
export type Input = Record<string, string>

/** What a command has where the store is open. */
export interface AtStore {
  config: Config
  store: Store
  now: Now
  /** Null where none has been made yet. */
  secretKey: string | null
  /** How requests arrived, where the running service does it. */
  arrivals?: Arrivals
}

/**
 * A command: one file of this folder, and a row in all-commands.ts. What only reads its settings and files is `run`.
 * What needs the store is `atStore`, since that is open to one process at a time: the running service does it, or else
 * the command's own process. Without `run`, what `atStore` says is printed.
 */
export interface Command {
  /** As it is typed: 'owner reset'. */
  name: string
  /** The words that may follow, as '[FILE]', and how many there can be. */
  takes?: string
  least?: number
  most?: number
  options?: NonNullable<ParseArgsConfig['options']>
  /** For the list of all commands; begins with a verb. */
  summary: string
  /** What it does in full, a line each. */
  help: string[]
  /** Whether `atStore` works on a store that an older release has left and this one hasn't been started on. */
  takesOlderStore?: boolean
  atStore?(at: AtStore, input: Input): AsyncIterable<string | Uint8Array>
  run?(here: Here, asked: Asked): Promise<void>
}

/** It can't be done; the message is one plain line for the person who asked. */
export class CommandFault extends Error {
  override name = 'CommandFault'
}

/** It wasn't asked for as a command is; the message is one plain line with a hint. */
export class Misused extends Error {
  override name = 'Misused'
}
