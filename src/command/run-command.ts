import type { Writable } from 'node:stream'
import { parseArgs } from 'node:util'
import { readConfig } from '../config.ts'
import type { Now } from '../lib/dates.ts'
import { allCommands } from './all-commands.ts'
import { askStore } from './ask-store.ts'
import { type Asked, type Command, type Here, Misused } from './command.ts'
import { describeCommand, listCommands, seeHelp } from './help.ts'
import { inOneLine } from './in-one-line.ts'

/** What a command line is run with: what was typed, the process's own streams, the clock. */
export interface CommandLine {
  typed: string[]
  /** The environment with the settings; the process's own when absent. */
  env?: Record<string, string | undefined>
  out: Writable & { isTTY?: boolean }
  aside: Writable
  now: Now
  interruption(): AbortSignal
}

/** Runs what was typed, and gives the exit code: 0 done, 1 failed, 2 not a command; the reason stands on `aside`. */
export async function runCommand(line: CommandLine): Promise<number> {
  try {
    const firstOption = line.typed.findIndex(word => word.startsWith('-'))
    const leading = firstOption < 0 ? line.typed : line.typed.slice(0, firstOption)
    const wantsHelp = leading[0] === 'help'
    const words = wantsHelp ? leading.slice(1) : leading
    const command = words.length > 0 ? requireCommand(words) : null
    if (!command) return sayAll(line, line.typed.slice(leading.length))
    const asked = readAsked(command, line.typed.slice(command.name.split(' ').length + (wantsHelp ? 1 : 0)))
    if (wantsHelp || asked.options.help) return print(line, describeCommand(command))
    requireWords(command, asked.words)
    await act(line, command, asked)
    return 0
  } catch (error) {
    line.aside.write(`${inOneLine(error)}\n`)
    return error instanceof Misused ? 2 : 1
  }
}

async function act(line: CommandLine, command: Command, asked: Asked): Promise<void> {
  const { env, now, out, aside, interruption } = line
  const config = readConfig(env)
  const here: Here = {
    config,
    env,
    now,
    out,
    say: text => void out.write(`${text}\n`),
    sayAside: text => void aside.write(`${text}\n`),
    interruption,
    ask: (input = {}) => askStore(command, config, now, input),
  }
  if (command.run) return command.run(here, asked)
  for await (const piece of here.ask()) out.write(piece)
}

function sayAll(line: CommandLine, rest: string[]): number {
  if (rest.some(word => word !== '--help' && word !== '-h'))
    throw new Misused(`Name a command first. ${seeHelp()}`)
  return print(line, listCommands(allCommands))
}

function print({ out }: CommandLine, lines: string[]): 0 {
  out.write(lines.map(text => `${text}\n`).join(''))
  return 0
}

/** The command that the first words name; there are none that begin like another. */
function requireCommand(words: string[]): Command {
  const typed = words.join(' ')
  const found = allCommands.find(({ name }) => `${typed} `.startsWith(`${name} `))
  if (found) return found
  const near = allCommands
    .filter(({ name }) => name.startsWith(`${words[0]} `))
    .map(({ name }) => `"${name}"`)
  const hint = near.length > 0 ? ` Did you mean ${near.join(' or ')}?` : ''
  throw new Misused(`There is no command "${typed}".${hint} ${seeHelp()}`)
}

function readAsked(command: Command, args: string[]): Asked {
  const options = { help: { type: 'boolean', short: 'h' }, ...command.options } as const
  try {
    const { values, positionals } = parseArgs({ args, options, allowPositionals: true })
    return { options: values, words: positionals }
  } catch (error) {
    const [why] = (error as Error).message.split('. ')
    throw new Misused(`${why!.replace(/\.$/, '')}. ${seeHelp(command)}`)
  }
}

function requireWords(command: Command, words: string[]): void {
  const { name, least = 0, most = 0, takes } = command
  if (words.length < least) throw new Misused(`"${name}" needs ${takes}. ${seeHelp(command)}`)
  if (words.length > most) throw new Misused(`"${name}" takes no "${words[most]}". ${seeHelp(command)}`)
}
