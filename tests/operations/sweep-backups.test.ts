import { mkdirSync, readdirSync, utimesSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { backupFolder } from '../../src/backup/folder.ts'
import { backUpNightly } from '../../src/operations/nightly-backup.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { ownFolder } from '../helpers/process.ts'

let app: TestApp

beforeAll(async () => {
  app = await testApp()
})
afterAll(() => app.close())

const AT = Temporal.Instant.from('2026-03-20T09:30:00Z')
const NIGHT = 'nightly-2026-03-20T093000Z.jsonl.gz'
const NONCE = '0123456789abcdef0123456789abcdef'

/** What is left of these files after a night's work; each was changed last so many hours before it, 0 unless told. */
async function left(files: Record<string, number> | string[], at = AT, store = app.store) {
  const dataDir = await ownFolder()
  const folder = backupFolder(dataDir)
  mkdirSync(folder)
  const hours = Array.isArray(files) ? Object.fromEntries(files.map(name => [name, 0])) : files
  for (const [name, ago] of Object.entries(hours)) {
    writeFileSync(join(folder, name), '')
    const changed = at.subtract({ hours: ago }).epochMilliseconds / 1000
    utimesSync(join(folder, name), changed, changed)
  }
  await backUpNightly({ store, config: { dataDir, backupRecipients: [] }, at })
  return readdirSync(folder)
    .filter(name => name !== NIGHT)
    .sort()
}

/** The same where no nightly backups are made. */
const leftAtServer = (files: string[]) => left(files, AT, { ...app.store, kind: 'postgres' })

test('what a killed process left of a backup goes after a day, whatever it was to be', async () => {
  const younger = `nightly-2026-03-19T093000Z.jsonl.gz.${NONCE}.part`
  const ofOthers = { 'notes.part': 100, 'mine.jsonl.gz': 100 }
  const kept = await left({
    [`nightly-2026-03-18T093000Z.jsonl.gz.${NONCE}.part`]: 25,
    [`nightly-2026-03-17T093000Z.jsonl.gz.age.${NONCE}.part`]: 25,
    [`before-update-2026-03-17T093000Z.jsonl.gz.${NONCE}.part`]: 25,
    [`bedwright-2026-03-17T093000Z.jsonl.gz.${NONCE}.part`]: 25,
    [`mine.${NONCE}.part`]: 25,
    [younger]: 23,
    ...ofOthers,
  })
  expect(kept).toEqual([...Object.keys(ofOthers), younger].sort())
})

test('what was made before an update or a move goes after a week, once there is a later night', async () => {
  const files = [
    'before-move-2026-03-01T080000Z.jsonl.gz.age',
    'before-update-2026-02-01T080000Z.jsonl.gz',
    'before-update-2026-03-13T092959Z.jsonl.gz',
    'before-update-2026-03-13T093001Z.jsonl.gz',
    'before-notes-2020-01-01T080000Z.jsonl.gz',
    'bedwright-2020-01-01T080000Z.jsonl.gz',
  ]
  const stay = [
    'bedwright-2020-01-01T080000Z.jsonl.gz',
    'before-notes-2020-01-01T080000Z.jsonl.gz',
    'before-update-2026-03-13T093001Z.jsonl.gz',
  ]
  // A server's store has no nights here, so the last one of before a move stays as well.
  const noNight = app.kind === 'postgres' ? ['before-move-2026-03-01T080000Z.jsonl.gz.age'] : []
  expect(await left(files)).toEqual([...stay, ...noNight].sort())
})

test('the last one of either kind stays where no later night is, also where a server has the store', async () => {
  const files = [
    'before-move-2026-02-01T080000Z.jsonl.gz',
    'before-move-2026-03-01T080000Z.jsonl.gz.age',
    'before-update-2026-02-01T080000Z.jsonl.gz',
    'before-update-2026-02-02T080000Z.jsonl.gz',
    'nightly-2026-02-20T093000Z.jsonl.gz',
  ]
  expect(await leftAtServer(files)).toEqual([
    'before-move-2026-03-01T080000Z.jsonl.gz.age',
    'nightly-2026-02-20T093000Z.jsonl.gz',
  ])
})
