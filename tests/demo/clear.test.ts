import fs from 'node:fs'
import { join } from 'node:path'
import { expect, onTestFinished, test, vi } from 'vitest'
import { clearDemo, whileUnfinished } from '../../src/demo/store.ts'
import { ownFolder } from '../helpers/process.ts'

async function filledFolder(): Promise<string> {
  const folder = await ownFolder()
  fs.mkdirSync(join(folder, 'store'))
  fs.writeFileSync(join(folder, 'store', 'PG_VERSION'), '18\n')
  fs.writeFileSync(join(folder, 'secret-key'), 'k')
  return folder
}

const left = (folder: string) => fs.readdirSync(folder).filter(name => name !== 'in-use.lock')

test('store and key go together when it starts over, or when its filling was broken off, and else stay', async () => {
  const folder = await filledFolder()
  clearDemo(folder, false)
  expect(left(folder)).toEqual(['secret-key', 'store'])
  await expect(whileUnfinished(folder, () => Promise.reject(new Error('broken off')))).rejects.toThrow()
  clearDemo(folder, false)
  expect(left(folder)).toEqual([])
  const again = await filledFolder()
  clearDemo(again, true)
  expect(left(again)).toEqual([])
})

test('a clearing that was broken off is finished at the next start', async () => {
  const folder = await filledFolder()
  const remove = fs.rmSync
  vi.spyOn(fs, 'rmSync').mockImplementation((path, options) => {
    if (String(path).endsWith('secret-key')) throw new Error('broken off')
    remove(path, options)
  })
  onTestFinished(() => void vi.restoreAllMocks())
  expect(() => clearDemo(folder, true)).toThrow('broken off')
  vi.restoreAllMocks()
  clearDemo(folder, false)
  expect(left(folder)).toEqual([])
})
