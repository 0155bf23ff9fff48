import { strToU8, zipSync } from 'fflate'
import { expect, test } from 'vitest'
import { filesOf } from '../../../src/rates/csv/files-of.ts'
import { filesFromZip, zipOf } from '../../../src/rates/csv/zip.ts'
import { fullTable } from './tables.ts'

const AT = Temporal.Instant.from('2026-03-02T15:00:00Z')
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
  const most = ': more than 40 files, or more than 2 MB unpacked'
  expect(faultOf(zipped({ 'rates.csv': '0'.repeat(2_000_001) }))).toBe(most)
  const half = '0'.repeat(1_000_001)
  expect(faultOf(zipped({ 'rates.csv': half, 'packs.csv': half }))).toBe(most)
  const many = Object.fromEntries(Array.from({ length: 41 }, (_, index) => [`${index}.csv`, '']))
  expect(faultOf(zipped(many))).toBe(most)
})

test('finds out a zip that lies of its sizes, or was damaged', () => {
  // Where the directory tells the unpacked size: 24 bytes into its entry (PKWARE APPNOTE 4.3.12).
  const lying = zipped({ 'rates.csv': '0'.repeat(3_000_000) })
  const view = new DataView(lying.buffer)
  const entry = view.getUint32(lying.length - 6, true)
  view.setUint32(entry + 24, 1000, true)
  expect(faultOf(lying)).toBe(': damaged: what it holds isn’t what was put in')

  const stored = zipSync({ 'rates.csv': strToU8('lower,upper\r\n80,100\r\n') }, { level: 0 })
  stored[stored.indexOf('8'.charCodeAt(0), 40)] = '9'.charCodeAt(0)
  expect(faultOf(stored)).toBe(': damaged: what it holds isn’t what was put in')
})

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
