import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { newSecret } from './lib/tokens.ts'

/**
 * The key that links are made from: as configured, else the one kept in the data folder, made there at the
 * first start and readable by its owner alone.
 */
export function readSecretKey(configured: string | undefined, dataDir: string): string {
  if (configured) return configured
  mkdirSync(dataDir, { recursive: true })
  const file = keyFile(dataDir)
  try {
    writeFileSync(file, `${newSecret()}\n`, { mode: 0o600, flag: 'wx' })
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error
  }
  return readFileSync(file, 'utf8').trim()
}

/** The same where there is one already; null rather than making one. */
export function findSecretKey(configured: string | undefined, dataDir: string): string | null {
  return configured || existsSync(keyFile(dataDir)) ? readSecretKey(configured, dataDir) : null
}

/** Where the key is kept unless it is configured. */
export function keyFile(dataDir: string): string {
  return join(dataDir, 'secret-key')
}
