import { argon2, randomBytes, timingSafeEqual } from 'node:crypto'
import { promisify } from 'node:util'

const argon2id = promisify(argon2)

// OWASP Password Storage Cheat Sheet: argon2id with 19 MiB, two passes, one lane.
const MEMORY_KIB = 19456
const PASSES = 2
const LANES = 1
const NONCE_BYTES = 16
const TAG_BYTES = 32

/** What is stored of a password: argon2id in its usual text form, about 100 characters. */
export async function hashPassword(password: string): Promise<string> {
  const nonce = randomBytes(NONCE_BYTES)
  const tag = await tagOf(password, nonce, MEMORY_KIB, PASSES, LANES)
  return `$argon2id$v=19$m=${MEMORY_KIB},t=${PASSES},p=${LANES}$${base64(nonce)}$${base64(tag)}`
}

/** Whether a password is the one that was stored; with undefined it takes as long and says no. */
export async function isPassword(password: string, stored: string | undefined): Promise<boolean> {
  const [, memory, passes, lanes, nonce, tag] = FORM.exec(stored ?? NOBODYS)!
  const expected = Buffer.from(tag!, 'base64')
  const found = await tagOf(
    password,
    Buffer.from(nonce!, 'base64'),
    Number(memory),
    Number(passes),
    Number(lanes),
  )
  return timingSafeEqual(found, expected) && stored !== undefined
}

const FORM = /^\$argon2id\$v=19\$m=(\d+),t=(\d+),p=(\d+)\$([^$]+)\$([^$]+)$/
const NOBODYS = `$argon2id$v=19$m=${MEMORY_KIB},t=${PASSES},p=${LANES}$${'A'.repeat(22)}$${'A'.repeat(43)}`

// The same password typed on another keyboard may be composed differently (NIST SP 800-63B, 3.1.1.2).
function tagOf(password: string, nonce: Buffer, memory: number, passes: number, parallelism: number) {
  const message = Buffer.from(password.normalize('NFKC'))
  return argon2id('argon2id', { message, nonce, parallelism, tagLength: TAG_BYTES, memory, passes })
}

function base64(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString('base64').replace(/=+$/, '')
}
