import { crc32, inflateRawSync } from 'node:zlib'

const END = 0x06054b50
const ENTRY = 0x02014b50
const LOCAL = 0x04034b50
const END_LENGTH = 22
const STORED = 0
const DEFLATED = 8

/** An entry of a zip as its directory tells of it. Everything in it may be a lie. */
export interface ZipEntry {
  name: string
  /** How many bytes it has unpacked. */
  size: number
  method: number
  isEncrypted: boolean
  checksum: number
  packedSize: number
  /** Where the entry itself begins. */
  at: number
}

/**
 * The entries of a zip, in the order of its directory (PKWARE APPNOTE 4.3.12 and 4.3.16), read as they are asked for.
 * @throws {RangeError} where the directory leads out of the bytes
 */
export function* entriesOf(bytes: Uint8Array): Generator<ZipEntry> {
  const view = viewOf(bytes)
  let end = bytes.length - END_LENGTH
  while (view.getUint32(end, true) !== END) end -= 1
  let at = view.getUint32(end + 16, true)
  for (let left = view.getUint16(end + 10, true); left > 0; left--) {
    if (view.getUint32(at, true) !== ENTRY) throw new RangeError('no entry of a zip')
    const flags = view.getUint16(at + 8, true)
    const [nameLength, ...more] = [28, 30, 32].map(offset => view.getUint16(at + offset, true))
    const name = Buffer.from(bytes.subarray(at + 46, at + 46 + nameLength!))
    yield {
      name: name.toString(flags & 0x800 ? 'utf8' : 'latin1'),
      size: view.getUint32(at + 24, true),
      method: view.getUint16(at + 10, true),
      isEncrypted: (flags & 1) === 1,
      checksum: view.getUint32(at + 16, true),
      packedSize: view.getUint32(at + 20, true),
      at: view.getUint32(at + 42, true),
    }
    at += 46 + nameLength! + more[0]! + more[1]!
  }
}

/**
 * What an entry holds; null when that isn't what the directory tells, by size or by checksum. No more is unpacked than
 * the size that it tells, whatever is packed in it.
 * @throws {RangeError} when it leads out of the bytes, is packed in a way not known here, or can't be unpacked
 */
export function unpackEntry(bytes: Uint8Array, entry: ZipEntry): Uint8Array | null {
  const view = viewOf(bytes)
  if (view.getUint32(entry.at, true) !== LOCAL) throw new RangeError('no entry of a zip')
  if (entry.isEncrypted || ![STORED, DEFLATED].includes(entry.method))
    throw new RangeError('packed otherwise')
  const start = entry.at + 30 + view.getUint16(entry.at + 26, true) + view.getUint16(entry.at + 28, true)
  const packed = bytes.subarray(start, start + entry.packedSize)
  const unpacked = entry.method === STORED ? packed : inflated(packed, entry.size)
  return unpacked?.length === entry.size && crc32(unpacked) === entry.checksum ? unpacked : null
}

/** Ends in the middle, with null, where more than `most` bytes come of it. */
function inflated(packed: Uint8Array, most: number): Uint8Array | null {
  try {
    return inflateRawSync(packed, { maxOutputLength: Math.max(most, 1) })
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ERR_BUFFER_TOO_LARGE') return null
    throw new RangeError('not packed as it says', { cause: error })
  }
}

function viewOf(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
}
