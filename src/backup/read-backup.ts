import { createHash } from 'node:crypto'
import { createReadStream } from 'node:fs'
import { pipeline } from 'node:stream'
import { createGunzip } from 'node:zlib'
import { migrations } from '../../migrations/list.ts'
import { CannotOpen, isSealed, type Opener, opened, SEALED_BY_BYTES } from '../lib/age.ts'
import { BackupUnusable, type End, FORMAT, type Head, type Line } from './format.ts'
import { cannotRead } from './plain-faults.ts'

const PIECE = 256 * 1024
const NEW_LINE = 10

/** A file that was read to its end and found whole. */
export interface CheckedBackup {
  file: string
  head: Head
  end: End
  /** What opened it; null where it isn't encrypted. */
  opener: Opener | null
}

/**
 * Reads a backup through and through, without using it.
 * @throws {BackupUnusable} when it isn't there or isn't one, is cut off or damaged, is of a newer Bedwright, or `opener` doesn't open it
 */
export async function checkBackup(file: string, opener: Opener | null = null): Promise<CheckedBackup> {
  let head: Head | undefined
  let end: End | undefined
  for await (const line of readBackup(file, opener)) {
    if (line.kind === 'head') head = line.head
    if (line.kind === 'end') end = line.end
  }
  return { file, head: head!, end: end!, opener }
}

/**
 * Gives the lines of a backup, of which the last is an end that fits all that was given before it.
 * @throws {BackupUnusable} as `checkBackup`, as soon as that is seen
 */
export async function* readBackup(file: string, opener: Opener | null = null): AsyncGenerator<Line> {
  const hash = createHash('sha256')
  const rows = new Map<string, number>()
  let [table, ended, begun] = ['', false, false]
  for await (const bytes of linesOf(file, opener)) {
    if (ended) throw damaged(file)
    const line = begun ? readLine(file, bytes) : readHead(file, bytes)
    if (line.kind === 'table') {
      if (rows.has(line.name)) throw damaged(file)
      table = line.name
      rows.set(table, 0)
    }
    if (line.kind === 'row') {
      const before = rows.get(table)
      if (before === undefined) throw damaged(file)
      rows.set(table, before + 1)
    }
    if (line.kind === 'end') {
      if (!fits(line.end, rows, hash.digest('hex'))) throw damaged(file)
      ended = true
    } else hash.update(bytes).update('\n')
    begun = true
    yield line
  }
  if (!begun) throw notOne(file)
  if (!ended) throw damaged(file)
}

function readHead(file: string, bytes: Buffer): Line {
  const head = parsed<Partial<Head>>(bytes)
  if (head?.bedwright !== 'backup') throw notOne(file)
  if (head.format !== FORMAT || !Array.isArray(head.migrations)) throw newer(file, head.version)
  const known = Object.keys(migrations)
  if (head.migrations.some((name, index) => name !== known[index])) throw newer(file, head.version)
  return { kind: 'head', head: head as Head }
}

function readLine(file: string, bytes: Buffer): Line {
  if (bytes[0] === 0x7b) return { kind: 'row', json: bytes.toString() }
  const [kind, what] = parsed<unknown[]>(bytes) ?? []
  if (kind === 'table' && typeof what === 'string') return { kind, name: what }
  if (kind === 'end' && typeof what === 'object') return { kind, end: what as End }
  throw damaged(file)
}

function parsed<T>(bytes: Buffer): T | undefined {
  try {
    return JSON.parse(bytes.toString()) ?? undefined
  } catch {
    return undefined
  }
}

function fits(end: End, rows: Map<string, number>, sha256: string): boolean {
  const told = Object.entries(end.rows ?? {})
  return end.sha256 === sha256 && told.length === rows.size && told.every(([name, n]) => rows.get(name) === n)
}

async function* linesOf(file: string, opener: Opener | null): AsyncGenerator<Buffer> {
  const gunzip = createGunzip({ chunkSize: PIECE })
  pipeline(await packedIn(file, opener), gunzip, () => {})
  let [rest, whole] = [Buffer.alloc(0), false]
  try {
    for await (const piece of gunzip as AsyncIterable<Buffer>) {
      let text = rest.length > 0 ? Buffer.concat([rest, piece]) : piece
      for (let at = text.indexOf(NEW_LINE); at >= 0; at = text.indexOf(NEW_LINE)) {
        yield text.subarray(0, at)
        whole = true
        text = text.subarray(at + 1)
      }
      rest = Buffer.from(text)
    }
  } catch (error) {
    if (error instanceof CannotOpen) throw error.why === 'damaged' ? damaged(file) : anotherKey(file)
    if (!String((error as NodeJS.ErrnoException).code).startsWith('Z_')) throw error
    throw whole ? damaged(file) : notOne(file)
  }
  if (rest.length > 0) throw whole ? damaged(file) : notOne(file)
}

async function packedIn(file: string, opener: Opener | null): Promise<AsyncIterable<Uint8Array>> {
  const first = await Array.fromAsync<Buffer>(createReadStream(file, { end: SEALED_BY_BYTES - 1 })).catch(
    error => {
      throw cannotRead(error, file)
    },
  )
  if (!isSealed(Buffer.concat(first))) return createReadStream(file)
  if (!opener) throw locked(file)
  return opened(createReadStream(file), opener)
}

function notOne(file: string): BackupUnusable {
  return new BackupUnusable(`${file} isn’t a Bedwright backup, or almost nothing is left of it.`)
}

function damaged(file: string): BackupUnusable {
  return new BackupUnusable(`${file} is cut off or damaged. Nothing was restored. Use another backup.`)
}

function newer(file: string, version: string | undefined): BackupUnusable {
  return new BackupUnusable(
    `${file} was made by a newer Bedwright (${version ?? 'unknown'}). Restore it with that version or a later one.`,
  )
}

function locked(file: string): BackupUnusable {
  return new BackupUnusable(
    `${file} is encrypted. Name the file with your private key: --identity FILE, or the one with the passphrase: --passphrase-file FILE.`,
  )
}

function anotherKey(file: string): BackupUnusable {
  return new BackupUnusable(`${file} is encrypted for another key or passphrase than the one you named.`)
}
