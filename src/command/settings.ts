import { readSettings } from '../config.ts'
import type { Command } from './command.ts'

/** What the settings come to. */
export const settings: Command = {
  name: 'settings',
  summary: 'show every setting, and where it comes from',
  help: [
    'Shows the settings as they are where you run the command: a running Bedwright keeps the ones it was',
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
