import { strToU8, zipSync } from 'fflate'
import { allFiles, GUIDE } from './all-files.ts'
import type { CsvFault } from './rows.ts'
import { entriesOf, unpackEntry } from './zip-entries.ts'

const MOST_FILES = 40
const MOST_BYTES = 2_000_000
const TOO_MUCH = `more than ${MOST_FILES} files, or more than 2 MB unpacked`

export type FromZip = { ok: true; files: Record<string, string> } | { ok: false; faults: CsvFault[] }

/** Files in one zip; `at` is the moment that they are said to be of. */
export function zipOf(files: Record<string, string>, at: Temporal.Instant): Uint8Array {
  const bytes = Object.entries(files).map(([name, text]) => [name, strToU8(text)] as const)
  return zipSync(Object.fromEntries(bytes), { mtime: at.epochMilliseconds })
}

/** The texts of a zip of files. Refuses what is no zip, too large, in folders, unknown, twice there or not UTF-8. */
export function filesFromZip(bytes: Uint8Array): FromZip {
  const unpacked = unpack(bytes)
  if ('fault' in unpacked) return refused('', unpacked.fault)
  const names = unpacked.files.map(({ name }) => name)
  const faults = names.flatMap((name, index) => {
    const message = nameFault(name, names.indexOf(name) !== index)
    return message ? [{ file: name, row: 0, column: '', message }] : []
  })
  if (faults.length > 0) return { ok: false, faults }
  const files: Record<string, string> = Object.create(null)
  for (const { name, content } of unpacked.files) {
    const text = decoded(content)
    if (text === null) return refused(name, 'not text in UTF-8: save it as “CSV UTF-8”')
    files[name] = text
  }
  return { ok: true, files }
}

function refused(file: string, message: string): FromZip {
  return { ok: false, faults: [{ file, row: 0, column: '', message }] }
}

type Unpacked = { files: { name: string; content: Uint8Array }[] } | { fault: string }

// The sizes that the zip tells are added up before anything is unpacked, and no more is unpacked than was told: however
// it lies, it costs no more than what is allowed.
function unpack(bytes: Uint8Array): Unpacked {
  try {
    const entries = entriesOf(bytes)
      .filter(({ name }) => !isAside(name))
      .take(MOST_FILES + 1)
      .toArray()
    const total = entries.reduce((sum, { size }) => sum + size, 0)
    if (entries.length > MOST_FILES || total > MOST_BYTES) return { fault: TOO_MUCH }
    const files: { name: string; content: Uint8Array }[] = []
    for (const entry of entries) {
      const content = unpackEntry(bytes, entry)
      if (!content) return { fault: 'damaged: what it holds isn’t what was put in' }
      files.push({ name: entry.name, content })
    }
    return { files }
  } catch (error) {
    if (error instanceof RangeError) return { fault: 'not a zip that can be read' }
    throw error
  }
}

// What the archiver of a Mac puts in besides.
function isAside(name: string): boolean {
  return name.startsWith('__MACOSX/') || name === '.DS_Store'
}

function nameFault(name: string, twice: boolean): string | null {
  if (/[/\\]/.test(name)) return 'in a folder: zip the files themselves'
  if (twice) return 'there twice'
  return name === GUIDE || allFiles.some(({ file }) => file === name) ? null : 'not a file of a rate table'
}

function decoded(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes)
  } catch {
    return null
  }
}
