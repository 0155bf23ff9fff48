import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { cannotRead, cannotWrite } from '../../src/backup/plain-faults.ts'
import { checkBackup } from '../../src/backup/read-backup.ts'
import { writeBackup } from '../../src/backup/write-backup.ts'
import { typed } from '../command/typed/typing.ts'
import { noStoreYet, ownFolder } from '../helpers/process.ts'

test('a file to restore that isn’t there, or is a folder, is told of in a plain sentence', async () => {
  const env = await noStoreYet()
  const folder = await ownFolder()
  const restore = async (file: string) => {
    const { code, aside } = await typed(`restore ${file}`, env)
    return [code, aside]
  }
  expect(await restore(`${folder}/none`)).toEqual([1, `There’s no file ${folder}/none.\n`])
  expect(await restore(folder)).toEqual([1, `${folder} is a folder, not a backup.\n`])
  writeFileSync(join(folder, 'a-file'), '')
  expect(await restore(`${folder}/a-file/none`)).toEqual([1, `There’s no file ${folder}/a-file/none.\n`])
  await expect(checkBackup(join(folder, 'a-file'))).rejects.toThrow('isn’t a Bedwright backup')
})

test('a folder to write to that isn’t there is told of in a plain sentence', async () => {
  const folder = await ownFolder()
  const lines = async function* () {
    yield Buffer.from('["end",{}]\n')
  }
  await expect(writeBackup(lines(), join(folder, 'none', 'x.gz'))).rejects.toThrow(
    `There’s no folder ${folder}/none to write to.`,
  )
  writeFileSync(join(folder, 'a-file'), '')
  await expect(writeBackup(lines(), join(folder, 'a-file', 'x.gz'))).rejects.toThrow(
    `There’s no folder ${folder}/a-file to write to.`,
  )
})

test.each([
  ['EACCES', '/kept/x.gz can’t be read by this user.', 'This user may not write to /kept.'],
  ['EPERM', '/kept/x.gz can’t be read by this user.', 'This user may not write to /kept.'],
  ['EROFS', '/kept/x.gz can’t be read by this user.', 'Nothing can be written to /kept: it’s read-only.'],
])('what this user may not do is told of in a plain sentence: %s', (code, reading, writing) => {
  const said = `${code}: as the system says it`
  const refusal = Object.assign(new Error(said), { code, path: '/kept/x.gz.0123.part' })
  expect(cannotRead(refusal, '/kept/x.gz')).toMatchObject({ name: 'BackupUnusable', message: reading })
  expect(cannotWrite(refusal, '/kept/x.gz')).toMatchObject({ name: 'BackupUnusable', message: writing })
})

test('any other fault stays as it is', () => {
  const full = Object.assign(new Error('ENOSPC: no space left on device'), { code: 'ENOSPC' })
  expect(cannotRead(full, '/kept/x.gz')).toBe(full)
  expect(cannotWrite(full, '/kept/x.gz')).toBe(full)
  const ofTheStore = Object.assign(new Error('ENOENT'), { code: 'ENOENT', path: '/data/backups/.spool-0123' })
  expect(cannotWrite(ofTheStore, '/kept/x.gz')).toBe(ofTheStore)
})
