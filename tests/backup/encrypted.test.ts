import { execFileSync } from 'node:child_process'
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { gunzipSync } from 'node:zlib'
import { afterAll, beforeAll, expect, onTestFinished, test } from 'vitest'
import { openStore } from '../../src/db/open.ts'
import { newKeyPair } from '../../src/lib/age.ts'
import { typed } from '../command/typed/typing.ts'
import { testApp } from '../helpers/app.ts'
import { folderWithStore } from '../helpers/made-store.ts'
import { openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'
import { backupFolder } from './files.ts'
import { everyRow } from './filled.ts'

const LONG = { timeout: 120_000 }

/** The standard program, where it is installed. */
const hasAge = (() => {
  try {
    execFileSync('age', ['--version'])
    return true
  } catch {
    return false
  }
})()

const files = backupFolder()
const at = (name: string) => join(files.folder, name)
let plain: string
let rows: Record<string, string[]>
let filled: string
let recipient: string

beforeAll(async () => {
  const app = await testApp()
  await openBusiness(app)
  await sendRequest(app)
  rows = await everyRow(app.store)
  plain = await files.backUp(app.store)
  await app.close()
  filled = await folderWithStore()
  expect(await typed(`restore ${plain}`, { DATA_DIR: filled })).toMatchObject({ code: 0 })
  const pair = await newKeyPair()
  recipient = pair.recipient
  writeFileSync(at('key'), `# created: 2026-03-02\n# public key: ${recipient}\n${pair.identity}\n`)
  writeFileSync(at('other-key'), (await newKeyPair()).identity)
  writeFileSync(at('words'), 'straw bark compost stone\n')
  writeFileSync(at('other-words'), 'straw bark compost stones\n')
})

afterAll(() => {
  files.remove()
  rmSync(filled, { recursive: true })
})

async function emptyFolder(): Promise<string> {
  const dataDir = await folderWithStore()
  onTestFinished(() => rmSync(dataDir, { recursive: true }))
  return dataDir
}

/** Restores into a new folder, and gives what the command came to and what is there then. */
async function restored(words: string) {
  const dataDir = await emptyFolder()
  const outcome = await typed(`restore ${words}`, { DATA_DIR: dataDir })
  const store = await openStore({ dataDir })
  return { ...outcome, rows: await everyRow(store).finally(store.close) }
}

/** Whether a backup is read to its end: only then is the store looked at, which has something in it here. */
async function opened(words: string): Promise<boolean> {
  const { aside } = await typed(`restore ${words}`, { DATA_DIR: filled })
  return aside.includes('The store isn’t empty')
}

test('a backup for one’s key is read by no other, and is restored with it', LONG, async () => {
  const file = at('sealed.jsonl.gz.age')
  const backedUp = await typed(`backup ${file} --recipient ${recipient}`, { DATA_DIR: filled })
  expect(backedUp).toMatchObject({ code: 0, said: expect.stringContaining(', encrypted).') })
  expect(readFileSync(file).toString('latin1')).toMatch(/^age-encryption\.org\/v1\n-> X25519 /)

  expect(await restored(`${file} --identity ${at('key')}`)).toMatchObject({ code: 0, rows })
  for (const [words, why] of [
    ['', 'Name the file with your private key'],
    [` --identity ${at('other-key')}`, 'is encrypted for another key'],
    [` --identity ${at('words')}`, 'isn’t a file with a private key'],
    [` --identity ${at('nowhere')}`, 'can’t be read'],
    [` --identity ${at('key')} --passphrase-file ${at('words')}`, 'not both'],
  ])
    expect((await typed(`restore ${file}${words}`, { DATA_DIR: filled })).aside).toContain(why)
  writeFileSync(at('cut.age'), readFileSync(file).subarray(0, -5))
  const cut = await typed(`restore ${at('cut.age')} --identity ${at('key')}`, { DATA_DIR: filled })
  expect(cut).toMatchObject({ code: 1, aside: expect.stringContaining('is cut off or damaged') })
})

test('a backup under a passphrase is restored with it alone', LONG, async () => {
  const file = at('words.jsonl.gz.age')
  const backedUp = await typed(`backup ${file} --passphrase-file ${at('words')}`, { DATA_DIR: filled })
  expect(backedUp).toMatchObject({ code: 0 })
  expect(await opened(`${file} --passphrase-file ${at('words')}`)).toBe(true)
  const other = await typed(`restore ${file} --passphrase-file ${at('other-words')}`, { DATA_DIR: filled })
  expect(other).toMatchObject({ code: 1, aside: expect.stringContaining('another key or passphrase') })
  writeFileSync(at('short'), 'bark')
  const short = await typed(`backup ${at('x')} --passphrase-file ${at('short')}`, { DATA_DIR: filled })
  expect(short).toMatchObject({ code: 1, aside: expect.stringContaining('at least 15 characters') })
})

test(
  'the setting encrypts every backup, also to standard output; an option counts before it',
  LONG,
  async () => {
    const set = { DATA_DIR: filled, BACKUP_RECIPIENTS: recipient }
    const { said } = await typed('backup', set)
    expect(said).toContain('.jsonl.gz.age (')
    const { bytes } = await typed('backup -', set)
    expect(bytes.toString('latin1')).toMatch(/^age-encryption\.org/)
    const wrong = await typed('backup', { DATA_DIR: filled, BACKUP_RECIPIENTS: `${recipient}x` })
    expect(wrong.aside).toContain('BACKUP_RECIPIENTS must be public keys of age')
    const option = await typed(`backup ${at('y')} --recipient ${recipient.slice(0, -1)}`, set)
    expect(option).toMatchObject({ code: 1, aside: expect.stringContaining('isn’t a public key of age') })
  },
)

test('moving needs no private key, and what it keeps is encrypted like the rest', LONG, async () => {
  const to = await emptyFolder()
  const moved = await typed(`move ${to}`, { DATA_DIR: filled, BACKUP_RECIPIENTS: recipient })
  expect(moved).toMatchObject({ code: 0, aside: '' })
  const store = await openStore({ dataDir: to })
  expect(await everyRow(store).finally(store.close)).toEqual(rows)
  const name = readdirSync(join(filled, 'backups')).find(name => name.startsWith('before-move'))!
  expect(await opened(`${join(filled, 'backups', name)} --identity ${at('key')}`)).toBe(true)
})

test.skipIf(!hasAge)('the program age opens ours, and we open what it makes', LONG, async () => {
  const ours = at('ours.age')
  expect(await typed(`backup ${ours} --recipient ${recipient}`, { DATA_DIR: filled })).toMatchObject({
    code: 0,
  })
  const open = execFileSync('age', ['--decrypt', '--identity', at('key'), ours])
  expect(gunzipSync(open).toString()).toMatch(/^\{"bedwright":"backup"/)
  execFileSync('age', ['--recipient', recipient, '--output', at('theirs.age'), plain])
  expect(await opened(`${at('theirs.age')} --identity ${at('key')}`)).toBe(true)
})
