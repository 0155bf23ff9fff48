import { readSettings } from '../config.ts'
import type { Command } from './command.ts'

/** What the settings come to. */
export const settings: Command = {
  name: 'settings',
  summary: 'show what every setting comes to, and where it comes from',
  help: [
    'Shows what the settings come to where the command is run: a Bedwright that is running keeps those that it was',
    'started with. Secrets are left out.',
  ],
  async run(here) {
    const rows = readSettings(here.env)
    const width = (column: 'name' | 'value') => Math.max(...rows.map(row => row[column].length))
    const [names, values] = [width('name'), width('value')]
    for (const { name, value, from } of rows)
      here.say(`${name.padEnd(names)}  ${value.padEnd(values)}  ${from}`)
  },
}
