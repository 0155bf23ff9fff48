import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { gunzipSync } from 'node:zlib'

const FOLDER = join(import.meta.dirname, 'stores')

/** The names of the stores of earlier versions, oldest first. */
export const EARLIER = readdirSync(FOLDER)
  .filter(name => name.endsWith('.jsonl.gz'))
  .map(name => name.replace('.jsonl.gz', ''))
  .sort()

/** What is told of a store beside its backup: the key of its links, the owner's sign-in, links that opened then. */
export interface Told {
  secretKey: string
  email: string
  password: string
  links: string[]
}

export type Row = Record<string, string | number | null>

/** One of them: where its backup is, what is told of it, and what stands in it, read without our own reader. */
export function earlierStore(name: string) {
  const path = join(FOLDER, `${name}.jsonl.gz`)
  const told: Told = JSON.parse(readFileSync(join(FOLDER, `${name}.json`), 'utf8'))
  return { path, told, read: () => readTables(path) }
}

function readTables(path: string) {
  const lines = gunzipSync(readFileSync(path)).toString().trimEnd().split('\n')
  const head = JSON.parse(lines[0]!) as { at: string; migrations: string[] }
  const tables: Record<string, Row[]> = {}
  let table = ''
  for (const line of lines.slice(1, -1)) {
    const read = JSON.parse(line)
    if (Array.isArray(read)) {
      table = read[1]
      tables[table] = []
    } else tables[table]!.push(read)
  }
  return { head, tables }
}
