import { constants, crc32, deflateRawSync } from 'node:zlib'
import { strToU8, Zip, ZipDeflate, zipSync } from 'fflate'
import { expect, test } from 'vitest'
import { filesOf } from '../../../src/rates/csv/files-of.ts'
import { filesFromZip, zipOf } from '../../../src/rates/csv/zip.ts'
import { fullTable } from './tables.ts'

const AT = Temporal.Instant.from('2026-03-02T15:00:00Z')
const MOST = ': more than 40 files, or more than 2 MB unpacked'
const zipped = (files: Record<string, string>) => zipOf(files, AT)

function faultOf(bytes: Uint8Array): string | null {
  const read = filesFromZip(bytes)
  return read.ok ? null : read.faults.map(({ file, message }) => `${file}: ${message}`).join('; ')
}

test('what is zipped comes out as it was', () => {
  const files = filesOf(fullTable())
  expect(filesFromZip(zipped(files))).toEqual({ ok: true, files })
})

test('takes nothing for a zip that is none', () => {
  const whole = zipped(filesOf(fullTable()))
  for (const bytes of [
    new Uint8Array(0),
    strToU8('finish,lower,upper'),
    whole.slice(0, -30),
    whole.slice(200),
  ])
    expect(faultOf(bytes)).toBe(': not a zip that can be read')
})

test('refuses a bomb by the sizes that it tells, before any of it is unpacked', () => {
  expect(faultOf(zipped({ 'rates.csv': '0'.repeat(2_000_001) }))).toBe(MOST)
  const half = '0'.repeat(1_000_001)
  expect(faultOf(zipped({ 'rates.csv': half, 'packs.csv': half }))).toBe(MOST)
  const many = Object.fromEntries(Array.from({ length: 41 }, (_, index) => [`${index}.csv`, '']))
  expect(faultOf(zipped(many))).toBe(MOST)
})

const DAMAGED = ': damaged: what it holds isn’t what was put in'

test('finds out a zip that lies of its sizes, or was damaged', () => {
  // Where the directory tells the unpacked size: 24 bytes into its entry (PKWARE APPNOTE 4.3.12).
  for (const [real, told] of [
    [3_000_000, 1000],
    [1000, 1001],
    [1000, 0],
    [1000, 1_999_999],
  ] as const) {
    const lying = zipped({ 'rates.csv': '0'.repeat(real) })
    const view = new DataView(lying.buffer)
    view.setUint32(view.getUint32(lying.length - 6, true) + 24, told, true)
    expect(faultOf(lying)).toBe(DAMAGED)
  }
  const stored = zipSync({ 'rates.csv': strToU8('lower,upper\r\n80,100\r\n') }, { level: 0 })
  stored[stored.indexOf('8'.charCodeAt(0), 40)] = '9'.charCodeAt(0)
  expect(faultOf(stored)).toBe(DAMAGED)
})

test('unpacks no more of an entry than the zip tells, so that what comes after isn’t even reached', () => {
  const zeros = deflateRawSync(Buffer.alloc(300_000), { finishFlush: constants.Z_FULL_FLUSH })
  // No block of DEFLATE begins with the bits 11 (RFC 1951, 3.2.3): whoever goes on reading finds it broken.
  const packed = Buffer.concat([zeros, Buffer.from([0xff])])
  expect(faultOf(zipBy([{ packed, told: 1000 }]))).toBe(DAMAGED)
  expect(faultOf(zipBy([{ packed, told: 400_000 }]))).toBe(': not a zip that can be read')
})

test('many entries over the same bytes come to no more than all that is allowed', () => {
  const packed = deflateRawSync(Buffer.alloc(50_000))
  const overlapping = (entries: number) => zipBy(Array(entries).fill({ packed, told: 50_000 }))
  expect(faultOf(overlapping(40))).toMatch(/^rates\.csv: there twice/)
  expect(faultOf(overlapping(41))).toBe(MOST)
  expect(faultOf(zipBy(Array(40).fill({ packed, told: 50_001 })))).toBe(MOST)
})

test('reads zips whose sizes stand behind what is packed, and that end in a comment, as other programs make them', () => {
  const chunks: Uint8Array[] = []
  const zip = new Zip((_error, chunk) => void chunks.push(chunk))
  for (const [name, text] of [
    ['rates.csv', 'a,b'],
    ['packs.csv', ''],
  ] as const) {
    const file = new ZipDeflate(name)
    zip.add(file)
    file.push(strToU8(text), true)
  }
  zip.end()
  const comment = strToU8('made by hand')
  const whole = new Uint8Array(Buffer.concat([...chunks, comment]))
  new DataView(whole.buffer).setUint16(whole.length - comment.length - 2, comment.length, true)
  expect(filesFromZip(whole)).toEqual({ ok: true, files: { 'rates.csv': 'a,b', 'packs.csv': '' } })
})

test('refuses what is packed in another way, or with a password', () => {
  const packed = deflateRawSync(Buffer.alloc(10))
  const unreadable = ': not a zip that can be read'
  expect(faultOf(zipBy([{ packed, told: 10 }]))).toBe(null)
  expect(faultOf(zipBy([{ packed, told: 10, method: 12 }]))).toBe(unreadable)
  expect(faultOf(zipBy([{ packed, told: 10, flags: 1 }]))).toBe(unreadable)
})

interface Made {
  packed: Uint8Array
  /** The size that the directory tells. */
  told: number
  method?: number
  flags?: number
}

/** A zip by hand (PKWARE APPNOTE 4.3): its entries all lie over the bytes of the first one. */
function zipBy(entries: Made[]): Uint8Array {
  const name = Buffer.from('rates.csv')
  const { packed } = entries[0]!
  const local = Buffer.alloc(30)
  local.writeUInt32LE(0x04034b50, 0)
  local.writeUInt16LE(name.length, 26)
  const directory = entries.flatMap(({ told, method = 8, flags = 0 }) => {
    const entry = Buffer.alloc(46)
    entry.writeUInt32LE(0x02014b50, 0)
    entry.writeUInt16LE(flags, 8)
    entry.writeUInt16LE(method, 10)
    entry.writeUInt32LE(crc32(Buffer.alloc(told)), 16)
    entry.writeUInt32LE(packed.length, 20)
    entry.writeUInt32LE(told, 24)
    entry.writeUInt16LE(name.length, 28)
    return [entry, name]
  })
  const end = Buffer.alloc(22)
  end.writeUInt32LE(0x06054b50, 0)
  end.writeUInt16LE(entries.length, 10)
  end.writeUInt32LE(local.length + name.length + packed.length, 16)
  return new Uint8Array(Buffer.concat([local, name, packed, ...directory, end]))
}

test('refuses folders and files that aren’t of a rate table, by their names', () => {
  expect(faultOf(zipped({ 'my rates/rates.csv': '', '../packs.csv': '' }))).toBe(
    'my rates/rates.csv: in a folder: zip the files themselves; ../packs.csv: in a folder: zip the files themselves',
  )
  expect(faultOf(zipped({ 'rates.xlsx': '', __proto__x: '' }))).toBe(
    'rates.xlsx: not a file of a rate table; __proto__x: not a file of a rate table',
  )
})

test('passes over what a Mac puts in besides', () => {
  expect(filesFromZip(zipped({ 'rates.csv': 'a', '__MACOSX/._rates.csv': '\0', '.DS_Store': 'x' }))).toEqual({
    ok: true,
    files: { 'rates.csv': 'a' },
  })
})

test('refuses text that isn’t UTF-8', () => {
  const latin = zipSync({ 'carriers.csv': new Uint8Array([0x43, 0x61, 0x6d, 0x69, 0xf3, 0x6e]) })
  expect(faultOf(latin)).toBe('carriers.csv: not text in UTF-8: save it as “CSV UTF-8”')
})
