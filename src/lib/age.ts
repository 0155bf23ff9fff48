import { createRequire } from 'node:module'
import { ReadableStream as Stream } from 'node:stream/web'
import type { Decrypter } from 'age-encryption'

/** Who can open what is sealed: the holders of private keys, by their public ones (`age1…`), or of a passphrase. */
export type Seal = { recipients: string[] } | { passphrase: string }

/** What opens it: private keys (`AGE-SECRET-KEY-…`), or a passphrase. */
export type Opener = { identities: string[] } | { passphrase: string }

/** It was sealed for others, or isn't whole. */
export class CannotOpen extends Error {
  override name = 'CannotOpen'
  readonly why: 'another key' | 'damaged'

  constructor(why: 'another key' | 'damaged') {
    super(why)
    this.why = why
  }
}

// The library tells it in words alone, and a wrong passphrase in the same ones.
const ANOTHER_KEY = 'no identity matched'
const MAGIC = 'age-encryption.org/v1\n'

/** How many bytes from the start tell whether something is sealed. */
export const SEALED_BY_BYTES = MAGIC.length

// Takes a quarter of a second and 27 MB (measured), so only those wait who seal or open.
function age(): typeof import('age-encryption') {
  return createRequire(import.meta.url)('age-encryption')
}

/** Whether it is a public key that the age format knows, its checksum too. */
export function isRecipient(text: string): boolean {
  return isTaken(() => new (age().Encrypter)().addRecipient(text))
}

/** Whether it is a private key that the age format knows, its checksum too. */
export function isIdentity(text: string): boolean {
  return isTaken(() => new (age().Decrypter)().addIdentity(text))
}

/** Whether these first bytes are those of something sealed. */
export function isSealed(bytes: Uint8Array): boolean {
  return Buffer.from(bytes).toString('latin1').startsWith(MAGIC)
}

/** Makes a pair of keys that is written down nowhere. */
export async function newKeyPair(): Promise<{ recipient: string; identity: string }> {
  const identity = await age().generateX25519Identity()
  return { identity, recipient: await age().identityToRecipient(identity) }
}

/** Seals what flows by, 64 kB at a time, in the format age-encryption.org/v1, which the program `age` opens too. */
export async function* sealed(source: AsyncIterable<Uint8Array>, seal: Seal): AsyncGenerator<Uint8Array> {
  const encrypter = new (age().Encrypter)()
  if ('passphrase' in seal) encrypter.setPassphrase(seal.passphrase)
  else for (const recipient of seal.recipients) encrypter.addRecipient(recipient)
  yield* await encrypter.encrypt(streamOf(source))
}

/**
 * Opens what `sealed` or the program `age` wrote.
 * @throws {CannotOpen} and whatever `source` throws
 */
export async function* opened(source: AsyncIterable<Uint8Array>, opener: Opener): AsyncGenerator<Uint8Array> {
  const decrypter: Decrypter = new (age().Decrypter)()
  if ('passphrase' in opener) decrypter.addPassphrase(opener.passphrase)
  else for (const identity of opener.identities) decrypter.addIdentity(identity)
  let fault: unknown
  const watched = async function* () {
    try {
      yield* source
    } catch (error) {
      fault = error
      throw error
    }
  }
  try {
    yield* await decrypter.decrypt(streamOf(watched()))
  } catch (error) {
    if (fault) throw fault
    throw new CannotOpen((error as Error).message.startsWith(ANOTHER_KEY) ? 'another key' : 'damaged')
  }
}

function streamOf(source: AsyncIterable<Uint8Array>): ReadableStream<Uint8Array> {
  return Stream.from(source) as unknown as ReadableStream<Uint8Array>
}

function isTaken(act: () => void): boolean {
  try {
    act()
    return true
  } catch {
    return false
  }
}
