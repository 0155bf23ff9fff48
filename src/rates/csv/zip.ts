import { crc32 } from 'node:zlib'
import { strToU8, unzipSync, zipSync } from 'fflate'
import { allFiles, GUIDE } from './all-files.ts'
import type { CsvFault } from './rows.ts'
import { checksumsOf } from './zip-checksums.ts'

const MOST_FILES = 40
const MOST_BYTES = 2_000_000

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
  const { found, names } = unpacked
  const faults = names.flatMap((name, index) => {
    const message = nameFault(name, names.indexOf(name) !== index)
    return message ? [{ file: name, row: 0, column: '', message }] : []
  })
  if (faults.length > 0) return { ok: false, faults }
  const files: Record<string, string> = Object.create(null)
  for (const name of names) {
    const text = decoded(found[name]!)
    if (text === null) return refused(name, 'not text in UTF-8: save it as “CSV UTF-8”')
    files[name] = text
  }
  return { ok: true, files }
}

function refused(file: string, message: string): FromZip {
  return { ok: false, faults: [{ file, row: 0, column: '', message }] }
}

type Unpacked = { found: Record<string, Uint8Array>; names: string[] } | { fault: string }

// The sizes that the zip tells are added up before anything is unpacked, and fflate unpacks no more than was told: a
// zip that lies, or was damaged, is found out by its checksums.
function unpack(bytes: Uint8Array): Unpacked {
  const names: string[] = []
  const sums: number[] = []
  let [entry, total, tooMuch] = [0, 0, false]
  try {
    const checksums = checksumsOf(bytes)
    const found = unzipSync(bytes, {
      filter: ({ name, originalSize }) => {
        const checksum = checksums[entry++]!
        if (isAside(name)) return false
        names.push(name)
        sums.push(checksum)
        total += originalSize
        tooMuch ||= names.length > MOST_FILES || total > MOST_BYTES
        return !tooMuch
      },
    })
    if (tooMuch) return { fault: `more than ${MOST_FILES} files, or more than 2 MB unpacked` }
    const isDamaged = names.some(
      (name, index) => names.lastIndexOf(name) === index && crc32(found[name]!) !== sums[index],
    )
    return isDamaged ? { fault: 'damaged: what it holds isn’t what was put in' } : { found, names }
  } catch {
    return { fault: 'not a zip that can be read' }
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
