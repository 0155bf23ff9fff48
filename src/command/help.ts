import type { Command } from './command.ts'

const WRITTEN = 'npm run bedwright --'

/** All commands in a few lines. */
export function listCommands(commands: Command[]): string[] {
  const rows = [...commands.map(one => [asTyped(one), one.summary]), ['help', 'show this']]
  const width = Math.max(...rows.map(([typed]) => typed!.length))
  return [
    `Bedwright from the command line: ${WRITTEN} COMMAND`,
    'In the container: docker compose exec app node src/command/main.ts COMMAND',
    '',
    ...rows.map(([typed, summary]) => `  ${typed!.padEnd(width)}  ${summary}`),
    '',
    `More about one of them: ${WRITTEN} COMMAND --help`,
  ]
}

/** One command in full. */
export function describeCommand(command: Command): string[] {
  return [`${WRITTEN} ${asTyped(command)}`, '', ...command.help]
}

/** The hint where something isn't known. */
export function seeHelp(command?: Command): string {
  return `See: ${WRITTEN} ${command ? `${command.name} --help` : 'help'}`
}

function asTyped({ name, takes }: Command): string {
  return [name, takes].filter(Boolean).join(' ')
}
