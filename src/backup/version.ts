import { readFileSync } from 'node:fs'

/** This release, as package.json says. */
export const VERSION: string = JSON.parse(
  readFileSync(new URL('../../package.json', import.meta.url), 'utf8'),
).version
