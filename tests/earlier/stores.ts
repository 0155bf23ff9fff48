import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { gunzipSync } from 'node:zlib'
import { SEED } from '../helpers/seed.ts'

const FOLDER = join(import.meta.dirname, 'stores')

/** The names of the stores of earlier versions, oldest first. */
export const ALL_EARLIER = readdirSync(FOLDER)
  .filter(name => name.endsWith('.jsonl.gz'))
  .map(name => name.replace('.jsonl.gz', ''))
  .sort()

/** All of them in a long run, else the oldest, the newest and one between. */
export const EARLIER = process.env.ROUNDS
  ? ALL_EARLIER
  : [ALL_EARLIER[0]!, ALL_EARLIER[1 + ((SEED ?? 0) % (ALL_EARLIER.length - 2))]!, ALL_EARLIER.at(-1)!]

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
