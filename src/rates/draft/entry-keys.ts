import { createHash } from 'node:crypto'

/**
 * What a form knows an entry by, wherever it stands by the time the form is sent: its slug or code, else all that it
 * holds.
 */
export function keyOfEntry(entry: Entry): string {
  const own = entry.slug ?? entry.code
  if (typeof own === 'string') return own
  return createHash('sha256').update(JSON.stringify(entry)).digest('hex').slice(0, 16)
}

export type Entry = Record<string, unknown>
