import { existsSync, readFileSync } from 'node:fs'
import { open } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { type Kysely, sql } from 'kysely'
import type { Database } from '../db/schema.ts'
import { syncFolder } from '../lib/sync-folder.ts'

/** One erasing, by numbers alone: enough to do it again in an older copy of the same store. */
export interface NotedErasing {
  /** Which store it was: what it keeps of its key, in short. */
  store: string
  /** When, ISO 8601 in UTC. */
  at: string
  customer: number
  /** The numbers of the requests. */
  requests: string[]
}

/** Where it is noted who was erased, outside the store, so that it outlives a restore. */
export function erasedFile(dataDir: string): string {
  return join(dataDir, 'erased.jsonl')
}

/** Those noted in a folder of the store that `db` is; a last line that was cut off is left out. */
export async function readErased(db: Kysely<Database>, dataDir: string): Promise<NotedErasing[]> {
  const store = await storeMark(db)
  return linesOf(erasedFile(dataDir)).filter(line => line.store === store)
}

/** Adds to the file whoever the store says was erased and it doesn't: it is on the disk then. Nothing new writes nothing. */
export async function noteErased(db: Kysely<Database>, dataDir: string): Promise<void> {
  const store = await storeMark(db)
  if (!store) return
  const known = new Set((await readErased(db, dataDir)).map(keyOf))
  const rows = await db
    .selectFrom('access_log')
    .select(['at', 'customer_id', 'requests'])
    .where('verb', '=', 'erased')
    // What was done again from here stands here already.
    .where('account_id', 'is not', null)
    .where('customer_id', 'is not', null)
    .orderBy('id')
    .execute()
  const lines = rows
    .map(row => ({ store, at: instantOf(row.at), customer: row.customer_id!, requests: row.requests }))
    .filter(line => !known.has(keyOf(line)))
  if (lines.length > 0) await append(erasedFile(dataDir), lines)
}

async function append(path: string, lines: NotedErasing[]): Promise<void> {
  const isNew = !existsSync(path)
  const file = await open(path, 'a', 0o600)
  try {
    // Begins a line of its own after one that was cut off.
    await file.write(`\n${lines.map(line => JSON.stringify(line)).join('\n')}\n`)
    await file.sync()
  } finally {
    await file.close()
  }
  if (isNew) syncFolder(dirname(path))
}

function linesOf(path: string): NotedErasing[] {
  if (!existsSync(path)) return []
  return readFileSync(path, 'utf8')
    .split('\n')
    .flatMap(line => readLine(line) ?? [])
}

function readLine(line: string): NotedErasing | null {
  try {
    const { store, at, customer, requests } = JSON.parse(line)
    Temporal.Instant.from(at)
    return typeof store === 'string' && Number.isSafeInteger(customer) && Array.isArray(requests)
      ? { store, at, customer, requests: requests.map(String) }
      : null
  } catch {
    return null
  }
}

/** Null for a store that was never started. */
async function storeMark(db: Kysely<Database>): Promise<string | null> {
  const { rows } = await sql<{ mark: string }>`
    select left(encode(sha256(convert_to(value, 'UTF8')), 'hex'), 16) as mark from key_check`.execute(db)
  return rows[0]?.mark ?? null
}

function keyOf({ at, customer }: NotedErasing): string {
  return `${customer} ${at}`
}

function instantOf(text: string): string {
  return Temporal.Instant.from(text).toString()
}
