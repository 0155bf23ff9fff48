import fs, { existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, onTestFinished, test, vi } from 'vitest'
import { backupFolder } from '../../src/backup/folder.ts'
import { checkBackup } from '../../src/backup/read-backup.ts'
import { newKeyPair } from '../../src/lib/age.ts'
import { backUpNightly } from '../../src/operations/nightly-backup.ts'
import { backupTrouble, findBackupTrouble, findStoreBackup } from '../../src/store-backup.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { ownFolder } from '../helpers/process.ts'

let app: TestApp

beforeAll(async () => {
  app = await testApp()
})
afterAll(() => app.close())

const night = (day: number) => Temporal.Instant.from(`2026-03-0${day}T09:30:00Z`)
const backUp = (dataDir: string, day: number, backupRecipients: string[] = []) =>
  backUpNightly({ store: app.store, config: { dataDir, backupRecipients }, at: night(day) })

test('each night is kept in a file that can be restored, and the oldest goes after seven', async () => {
  const dataDir = await ownFolder()
  const folder = backupFolder(dataDir)
  mkdirSync(folder)
  const others = ['bedwright-2020-01-01T000000Z.jsonl.gz', 'nightly-notes.txt']
  for (const name of others) writeFileSync(join(folder, name), '')
  for (let day = 1; day <= 8; day += 1) await backUp(dataDir, day)
  const nights = readdirSync(folder).filter(name => !others.includes(name))
  if (app.kind === 'postgres') {
    expect(nights).toEqual([])
    expect(await findStoreBackup(app.db)).toBe(null)
    return
  }
  expect(nights.sort()).toEqual([2, 3, 4, 5, 6, 7, 8].map(day => `nightly-2026-03-0${day}T093000Z.jsonl.gz`))
  expect(readdirSync(folder)).toEqual(expect.arrayContaining(others))
  const checked = await checkBackup(join(folder, nights.at(-1)!))
  expect(checked.head.at).toBe(night(8).toString())
  const last = await findStoreBackup(app.db)
  expect(last).toMatchObject({ fault: null, bytes: expect.any(Number) })
  expect(Temporal.Instant.from(last!.made_at!).toString()).toBe(night(8).toString())
})

test('a night is encrypted where a key is set, can be read with the other one alone, and counts among the seven', async () => {
  if (app.kind === 'postgres') return expect(await backUp('/dev/null', 9)).toBe(undefined)
  const dataDir = await ownFolder()
  const { recipient, identity } = await newKeyPair()
  for (let day = 1; day <= 7; day += 1) await backUp(dataDir, day)
  await backUp(dataDir, 8, [recipient])
  const nights = readdirSync(backupFolder(dataDir)).sort()
  expect([nights.length, nights[0], nights.at(-1)]).toEqual([
    7,
    'nightly-2026-03-02T093000Z.jsonl.gz',
    'nightly-2026-03-08T093000Z.jsonl.gz.age',
  ])
  const file = join(backupFolder(dataDir), nights.at(-1)!)
  await expect(checkBackup(file)).rejects.toThrow('is encrypted')
  const { head } = await checkBackup(file, { identities: [identity] })
  expect(head.at).toBe(night(8).toString())
  await backUp(dataDir, 9)
  for (const day of [10, 11, 12, 13, 14, 15])
    await backUpNightly({
      store: app.store,
      config: { dataDir, backupRecipients: [] },
      at: Temporal.Instant.from(`2026-03-${day}T09:30:00Z`),
    })
  expect(readdirSync(backupFolder(dataDir)).filter(name => name.endsWith('.age'))).toEqual([])
})

test('one that fails is noted, keeps when the last good one was, and is told to who runs it', async () => {
  if (app.kind === 'postgres') return expect(await backUp('/dev/null', 9)).toBe(undefined)
  const dataDir = await ownFolder()
  await backUp(dataDir, 8)
  await expect(backUp('/dev/null', 9)).rejects.toThrow('ENOTDIR')
  const last = await findStoreBackup(app.db)
  expect(last!.fault).toMatch(/^The backup failed: ENOTDIR.*/)
  expect(Temporal.Instant.from(last!.made_at!).toString()).toBe(night(8).toString())
  expect(existsSync('/dev/null/backups')).toBe(false)
  await backUp(dataDir, 9)
  expect(await findStoreBackup(app.db)).toMatchObject({ fault: null })
})

test.each([
  ['while the rows are read', 'statfsSync', { ...fs.statfsSync('/tmp'), bavail: 0 }],
  ['while the file is written', 'write', null],
] as const)(
  'a disk that is full %s leaves nothing half made, the older ones and a plain sentence; the next night works',
  async (_when, call, given) => {
    if (app.kind === 'postgres') return expect(await backUp('/dev/null', 9)).toBe(undefined)
    const dataDir = await ownFolder()
    await backUp(dataDir, 7)
    const kept = readdirSync(backupFolder(dataDir))
    const full = vi.spyOn(fs, call as 'write')
    onTestFinished(() => full.mockRestore())
    full.mockImplementation(((...args: unknown[]) => {
      const done = args.at(-1)
      const refusal = Object.assign(new Error('ENOSPC: no space left on device, write'), { code: 'ENOSPC' })
      return typeof done === 'function' ? process.nextTick(done, refusal) : given
    }) as never)
    await expect(backUp(dataDir, 8)).rejects.toMatchObject({ code: 'ENOSPC' })
    full.mockRestore()
    expect(readdirSync(backupFolder(dataDir))).toEqual(kept)
    const last = await findStoreBackup(app.db)
    expect(backupTrouble(last!, night(8))).toBe(
      'Last night’s backup failed: the disk is full. Make room on it.',
    )
    expect(Temporal.Instant.from(last!.made_at!).toString()).toBe(night(7).toString())
    await backUp(dataDir, 9)
    expect(await findBackupTrouble(app.db, 'embedded', night(9))).toBe(null)
    expect(readdirSync(backupFolder(dataDir))).toHaveLength(2)
  },
)
