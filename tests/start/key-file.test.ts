import fs from 'node:fs'
import { join } from 'node:path'
import { beforeEach, expect, onTestFinished, test, vi } from 'vitest'
import { KeyUnusable, readSecretKey } from '../../src/secret-key.ts'
import { ownFolder } from '../helpers/process.ts'

let folder: string
let file: string
beforeEach(async () => {
  folder = await ownFolder()
  file = join(folder, 'secret-key')
})

const read = () => readSecretKey(undefined, folder)

test('a key is made once, for its owner alone, with nothing left beside it', () => {
  const key = read()
  expect(key).toMatch(/^[\w-]{43}$/)
  expect(fs.statSync(file).mode & 0o777).toBe(0o600)
  expect(fs.readdirSync(folder)).toEqual(['secret-key'])
  expect(read()).toBe(key)
})

test('a key that is set makes no file', () => {
  expect(readSecretKey('k'.repeat(32), folder)).toBe('k'.repeat(32))
  expect(fs.readdirSync(folder)).toEqual([])
})

test('the key is on the disk before it has its name', () => {
  const write = vi.spyOn(fs, 'writeFileSync')
  const link = vi.spyOn(fs, 'linkSync')
  onTestFinished(() => void vi.restoreAllMocks())
  read()
  const [aside, , options] = write.mock.calls[0]!
  expect(options).toMatchObject({ flush: true })
  expect(link.mock.calls).toEqual([[aside, file]])
  expect(link.mock.invocationCallOrder[0]).toBeGreaterThan(write.mock.invocationCallOrder[0]!)
})

test('two that start at once have one key', () => {
  const link = fs.linkSync
  let other: string | undefined
  vi.spyOn(fs, 'linkSync').mockImplementationOnce((...paths) => {
    other = read()
    link(...paths)
  })
  onTestFinished(() => void vi.restoreAllMocks())
  const key = read()
  expect(other).toMatch(/^[\w-]{43}$/)
  expect(key).toBe(other)
  expect(fs.readFileSync(file, 'utf8').trim()).toBe(other)
  expect(fs.readdirSync(folder)).toEqual(['secret-key'])
})

test('a making that fails leaves no key, and the next start makes one', () => {
  vi.spyOn(fs, 'linkSync').mockImplementationOnce(() => {
    throw Object.assign(new Error('no room'), { code: 'ENOSPC' })
  })
  onTestFinished(() => void vi.restoreAllMocks())
  expect(read).toThrow('no room')
  expect(fs.readdirSync(folder)).toEqual([])
  expect(read()).toMatch(/^[\w-]{43}$/)
})

test.each([
  ['', 'empty'],
  [' \n', 'empty'],
  ['k'.repeat(31), 'cut short'],
  [`${'k'.repeat(31)}\n\n`, 'cut short'],
])(
  'a key file with %j in it is refused in one line that says what to do, and stays as it is',
  (text, what) => {
    fs.writeFileSync(file, text)
    expect(read).toThrow(
      new KeyUnusable(
        `The key in ${file} is ${what}. Put your copy of the file back. If you don’t have one, remove the file, and Bedwright makes a new key.`,
      ),
    )
    expect(fs.readFileSync(file, 'utf8')).toBe(text)
  },
)

test('a key file of 32 characters is taken', () => {
  fs.writeFileSync(file, `${'k'.repeat(32)}\n`)
  expect(read()).toBe('k'.repeat(32))
})
