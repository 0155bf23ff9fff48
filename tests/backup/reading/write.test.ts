import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { gunzipSync } from 'node:zlib'
import { beforeEach, expect, test } from 'vitest'
import { BackupUnusable } from '../../../src/backup/format.ts'
import { openSpool } from '../../../src/backup/spool.ts'
import { writeBackup } from '../../../src/backup/write-backup.ts'
import { until } from '../../helpers/until.ts'

let folder: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'bedwright-writing-'))
  return () => rmSync(folder, { recursive: true })
})

const LINES = [
  '{"bedwright":"backup"}\n["table","custo',
  'mer"]\n{"id":1}\n',
  '["end",{"rows":{"customer":1}}]\n',
]
async function* pieces(of: string[], meanwhile: () => unknown = () => {}) {
  for (const text of of) {
    await meanwhile()
    yield Buffer.from(text)
  }
}

test('a file is for its owner alone, has its name only when it is whole, and says what its last line says', async () => {
  const file = join(folder, 'a.jsonl.gz')
  const begun = () => until(() => readdirSync(folder).length > 0, { what: 'the file to be begun' })
  const lines = pieces(LINES, async () => {
    await begun()
    expect(readdirSync(folder)).not.toContain('a.jsonl.gz')
  })
  const { size, end } = await writeBackup(lines, file)
  expect(readdirSync(folder)).toEqual(['a.jsonl.gz'])
  expect(end).toEqual({ rows: { customer: 1 } })
  expect([statSync(file).size, statSync(file).mode & 0o777]).toEqual([size, 0o600])
  expect(gunzipSync(readFileSync(file)).toString()).toBe(LINES.join(''))
})

test('nothing is left of one whose lines break off', async () => {
  async function* breaking() {
    yield* pieces(LINES.slice(0, 2))
    throw new Error('the power went')
  }
  await expect(writeBackup(breaking(), join(folder, 'a.jsonl.gz'))).rejects.toThrow('the power went')
  expect(readdirSync(folder)).toEqual([])
})

test('nothing is left of one that is stopped', async () => {
  const stop = new AbortController()
  const lines = pieces(LINES, () => stop.abort())
  await expect(writeBackup(lines, join(folder, 'a.jsonl.gz'), { signal: stop.signal })).rejects.toThrow(
    'aborted',
  )
  expect(readdirSync(folder)).toEqual([])
})

test('a file that is there is not overwritten, even where it came meanwhile', async () => {
  const file = join(folder, 'a.jsonl.gz')
  const meanwhile = pieces(LINES, () => writeFileSync(file, 'mine'))
  await expect(writeBackup(meanwhile, file)).rejects.toThrow(BackupUnusable)
  let asked = false
  const lines = pieces(LINES, () => {
    asked = true
  })
  await expect(writeBackup(lines, file)).rejects.toThrow('is there already')
  expect(asked).toBe(false)
  expect(readdirSync(folder)).toEqual(['a.jsonl.gz'])
  expect(readFileSync(file, 'utf8')).toBe('mine')
})

test('what is read ahead stands in a file without a name', async () => {
  const spool = await openSpool(folder)
  const [first, second] = [await spool.write('é — one\n'), await spool.write('two\n')]
  expect(readdirSync(folder)).toEqual([])
  const read = async (range: typeof first) =>
    Buffer.concat(await Array.fromAsync(spool.read(range))).toString()
  expect(await read(second)).toBe('two\n')
  expect(await read([first[0], second[1]])).toBe('é — one\ntwo\n')
  await spool.close()
})
