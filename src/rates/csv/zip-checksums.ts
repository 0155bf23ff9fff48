const END = 0x06054b50
const ENTRY = 0x02014b50
const END_LENGTH = 22

/**
 * The checksums (CRC-32) that a zip gives for its entries, in the order of its directory (PKWARE APPNOTE 4.3.12 and
 * 4.3.16). @throws {RangeError} where the directory leads out of the bytes
 */
export function checksumsOf(bytes: Uint8Array): number[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  let end = bytes.length - END_LENGTH
  while (view.getUint32(end, true) !== END) end -= 1
  const checksums: number[] = []
  let at = view.getUint32(end + 16, true)
  for (let left = view.getUint16(end + 10, true); left > 0; left--) {
    if (view.getUint32(at, true) !== ENTRY) throw new RangeError('no entry of a zip')
    checksums.push(view.getUint32(at + 16, true))
    at += 46 + [28, 30, 32].reduce((length, offset) => length + view.getUint16(at + offset, true), 0)
  }
  return checksums
}
