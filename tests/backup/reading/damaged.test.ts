import { createHash } from 'node:crypto'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'
import { afterAll, expect, test } from 'vitest'
import { migrations } from '../../../migrations/list.ts'
import { BackupUnusable } from '../../../src/backup/format.ts'
import { checkBackup, readBackup } from '../../../src/backup/read-backup.ts'

const folder = mkdtempSync(join(tmpdir(), 'bedwright-reading-'))
afterAll(() => rmSync(folder, { recursive: true }))

const names = Object.keys(migrations)
const head = {
  bedwright: 'backup',
  format: 1,
  version: '0.1.0',
  at: '2026-03-02T16:00:00Z',
  migrations: names,
}
const ROWS = ['{"id":1,"name":"Carol"}', '{"id":2,"name":"O\u2028Neill"}']

/** The lines of a backup by hand: two customers and no place; what is given instead counts. */
function lines({ first = head as object, body = [] as string[], end = {} as object } = {}): string[] {
  const before = [JSON.stringify(first), '["table","customer"]', ...ROWS, '["table","place"]', ...body]
  const sha256 = createHash('sha256')
    .update(before.map(line => `${line}\n`).join(''))
    .digest('hex')
  const last = { rows: { customer: 2, place: 0 }, sequences: { customer_id_seq: 2 }, sha256, ...end }
  return [...before, JSON.stringify(['end', last])]
}

const packed = (text: string) => gzipSync(text)
const textOf = (of: string[]) => of.map(line => `${line}\n`).join('')

function written(bytes: Uint8Array | string): string {
  const file = join(folder, 'file.jsonl.gz')
  writeFileSync(file, bytes)
  return file
}

async function refusal(bytes: Uint8Array | string): Promise<string> {
  const error = await checkBackup(written(bytes)).catch(error => error)
  expect(error).toBeInstanceOf(BackupUnusable)
  expect(error.message).not.toContain('\n')
  return error.message
}

test('a whole one is read line by line, rows as they stand there', async () => {
  const file = written(packed(textOf(lines())))
  const checked = await checkBackup(file)
  expect(checked).toMatchObject({ file, head, end: { rows: { customer: 2, place: 0 } } })
  const read = await Array.fromAsync(readBackup(file))
  expect(read.map(({ kind }) => kind)).toEqual(['head', 'table', 'row', 'row', 'table', 'end'])
  expect(read.flatMap(line => (line.kind === 'row' ? [line.json] : []))).toEqual(ROWS)
})

test('rows of any length are read across the pieces in which they come', async () => {
  const long = Array.from({ length: 40 }, (_, id) => `{"id":${id},"name":"${'x'.repeat(id * 9_973)}"}`)
  const file = written(packed(textOf(lines({ body: long, end: { rows: { customer: 2, place: 40 } } }))))
  const read = await Array.fromAsync(readBackup(file))
  expect(read.flatMap(line => (line.kind === 'row' ? [line.json] : []))).toEqual([...ROWS, ...long])
})

test('one cut off anywhere is refused', async () => {
  const whole = packed(textOf(lines()))
  for (let length = 0; length < whole.length; length++)
    expect(await refusal(whole.subarray(0, length))).toMatch(/cut off or damaged|isn’t a Bedwright backup/)
})

test('one with a bit that is another is refused, or says the same', async () => {
  const whole = packed(textOf(lines()))
  const meant = await Array.fromAsync(readBackup(written(whole)))
  let refused = 0
  for (let at = 0; at < whole.length; at++) {
    const damaged = Buffer.from(whole)
    damaged[at]! ^= 0b100
    const file = written(damaged)
    const read = await Array.fromAsync(readBackup(file)).catch(error => error)
    if (read instanceof BackupUnusable) refused++
    else expect(read).toEqual(meant)
  }
  // gzip has some bits that mean nothing.
  expect(refused).toBeGreaterThan(whole.length - 20)
})

test.each([
  ['a row is missing', lines().toSpliced(2, 1)],
  ['a row is there twice', lines().toSpliced(2, 0, ROWS[0]!)],
  ['a row is another', lines().with(2, '{"id":1,"name":"Karol"}')],
  ['a row is no row', lines().with(2, 'customer')],
  ['two rows have changed places', lines().with(2, ROWS[1]!).with(3, ROWS[0]!)],
  ['a row stands before any table', lines().toSpliced(1, 1)],
  ['a table is there twice', lines().with(4, '["table","customer"]')],
  ['the end is missing', lines().slice(0, -1)],
  ['the end is there twice', [...lines(), lines().at(-1)!]],
  ['something follows the end', [...lines(), '{}']],
  ['the end counts other rows', lines({ end: { rows: { customer: 3, place: 0 } } })],
  ['the end counts another table', lines({ end: { rows: { customer: 2, place: 0, bed: 0 } } })],
  ['the end counts nothing', lines({ end: { rows: undefined } })],
  ['the end is of another file', lines({ end: { sha256: '0'.repeat(64) } })],
])('where %s it is refused', async (_what, changed) => {
  expect(await refusal(packed(textOf(changed)))).toContain('cut off or damaged')
})

test('the last line must be ended too', async () => {
  expect(await refusal(packed(textOf(lines()).slice(0, -1)))).toContain('cut off or damaged')
})

test.each([
  ['nothing', ''],
  ['a text', 'hello'],
  ['a packed text', packed('hello\n')],
  ['a packed text without an end of line', packed('hello')],
  ['nothing packed', packed('')],
  ['something else of ours', packed('{"bedwright":"rates"}\n')],
])('%s is no backup', async (_what, bytes) => {
  expect(await refusal(bytes)).toContain('isn’t a Bedwright backup')
})

test.each([
  ['a form of later', { ...head, format: 2, version: '9.0.0' }],
  ['a change of later', { ...head, migrations: [...names, '2099-01-01-1-later'], version: '9.0.0' }],
  ['another line of changes', { ...head, migrations: [names[1], names[0]], version: '9.0.0' }],
])('one with %s is refused with the version that it needs', async (_what, first) => {
  expect(await refusal(packed(textOf(lines({ first }))))).toMatch(/newer Bedwright \(9\.0\.0\)/)
})

test('one of an older Bedwright is read', async () => {
  const first = { ...head, migrations: names.slice(0, 2) }
  expect((await checkBackup(written(packed(textOf(lines({ first })))))).head).toEqual(first)
})

test('a file that is not there is told as such', async () => {
  const file = join(folder, 'none')
  await expect(checkBackup(file)).rejects.toMatchObject({
    name: 'BackupUnusable',
    message: `There’s no file ${file}.`,
  })
})
