import fs from 'node:fs'
import { dirname, join } from 'node:path'
import { syncFolder } from './lib/sync-folder.ts'
import { newNonce, newSecret } from './lib/tokens.ts'

const SHORTEST = 32

/** The key can't be used; the message is one plain line that says what to do. */
export class KeyUnusable extends Error {
  override name = 'KeyUnusable'
}

/**
 * The key that links are made from, 32 characters or more: as configured, else the one kept in the data folder, made
 * there at the first start and readable by its owner alone.
 * @throws {KeyUnusable} when the file in the folder holds no whole key
 */
export function readSecretKey(configured: string | undefined, dataDir: string): string {
  if (configured) return configured
  const file = keyFile(dataDir)
  fs.mkdirSync(dataDir, { recursive: true, mode: 0o700 })
  if (!fs.existsSync(file)) makeKeyFile(file)
  const key = fs.readFileSync(file, 'utf8').trim()
  if (key.length >= SHORTEST) return key
  throw new KeyUnusable(
    `The key in ${file} is ${key ? 'cut short' : 'empty'}. Put your copy of the file back. If you don’t have one, remove the file, and Bedwright makes a new key.`,
  )
}

/** Where the key is kept unless it is configured. */
export function keyFile(dataDir: string): string {
  return join(dataDir, 'secret-key')
}

// Made aside, and given its name only when it is whole: a link, unlike a renaming, never takes the place of the key
// that another one who starts now has made.
function makeKeyFile(file: string): void {
  const aside = `${file}.${newNonce()}`
  try {
    fs.writeFileSync(aside, `${newSecret()}\n`, { mode: 0o600, flag: 'wx', flush: true })
    fs.linkSync(aside, file)
    syncFolder(dirname(file))
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error
  } finally {
    fs.rmSync(aside, { force: true })
  }
}

/** The same where there is one already; null rather than making one. */
export function findSecretKey(configured: string | undefined, dataDir: string): string | null {
  return configured || fs.existsSync(keyFile(dataDir)) ? readSecretKey(configured, dataDir) : null
}
