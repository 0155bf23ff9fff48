import { createHash } from 'node:crypto'
import { inflateSync } from 'node:zlib'
import * as cctv from 'cctv-age'
import { expect, test } from 'vitest'
import {
  CannotOpen,
  isIdentity,
  isRecipient,
  isSealed,
  newKeyPair,
  type Opener,
  opened,
  sealed,
} from '../../src/lib/age.ts'

async function* inPieces(bytes: Uint8Array, size: number) {
  for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size)
}

async function all(pieces: AsyncIterable<Uint8Array>): Promise<Buffer> {
  return Buffer.concat(await Array.fromAsync(pieces))
}

/** A published vector: lines that say what is to come of it, an empty one, and the file. */
function vector(bytes: Uint8Array) {
  const whole = Buffer.from(bytes)
  const at = whole.indexOf('\n\n')
  const rows = whole.subarray(0, at).toString().split('\n')
  const told = rows.map(row => [row.slice(0, row.indexOf(': ')), row.slice(row.indexOf(': ') + 2)] as const)
  const every = (name: string) => told.filter(([key]) => key === name).map(([, value]) => value)
  const file = whole.subarray(at + 2)
  return {
    every,
    one: (name: string) => every(name)[0],
    file: every('compressed')[0] ? inflateSync(file) : file,
  }
}

// https://c2sp.org/CCTV/age, the vectors of the specification age-encryption.org/v1.
const vectors = Object.entries(cctv as unknown as Record<string, Uint8Array>)
  .map(([name, bytes]) => ({ name, ...vector(bytes) }))
  .filter(({ one }) => one('armored') === undefined)

test.each(vectors)('the published vector $name comes out as it says', async ({ every, one, file }) => {
  const passphrase = one('passphrase')
  const opener: Opener = passphrase === undefined ? { identities: every('identity') } : { passphrase }
  const out = all(opened(inPieces(file, 10_007), opener))
  if (one('expect') === 'success') {
    const sha256 = createHash('sha256')
      .update(await out)
      .digest('hex')
    return expect(sha256).toBe(one('payload'))
  }
  const why = one('expect') === 'no match' ? 'another key' : 'damaged'
  await expect(out).rejects.toThrow(why)
  await expect(out).rejects.toThrow(CannotOpen)
})

test('there are vectors of every outcome', () => {
  expect(vectors.length).toBeGreaterThan(60)
})

test('what is sealed for two is opened by each alone and by nobody else, whatever its length', async () => {
  const [one, other, stranger] = [await newKeyPair(), await newKeyPair(), await newKeyPair()]
  for (const length of [0, 1, 65_535, 65_536, 65_537, 300_000]) {
    const bytes = Buffer.alloc(length, 'compost')
    const recipients = [one.recipient, other.recipient]
    const file = await all(sealed(inPieces(bytes, 4_099), { recipients }))
    expect(isSealed(file)).toBe(true)
    for (const { identity } of [one, other])
      expect(
        (await all(opened(inPieces(file, 9_999), { identities: [stranger.identity, identity] }))).equals(
          bytes,
        ),
      ).toBe(true)
    await expect(all(opened(inPieces(file, 9_999), { identities: [stranger.identity] }))).rejects.toThrow(
      'another key',
    )
    await expect(
      all(opened(inPieces(file.subarray(0, -1), 9_999), { identities: [one.identity] })),
    ).rejects.toThrow('damaged')
  }
})

test('a fault of what flows by is told as it is, and not as damage', async () => {
  const { recipient, identity } = await newKeyPair()
  async function* breaking(bytes: Uint8Array) {
    yield bytes
    throw new Error('the disk went')
  }
  await expect(all(sealed(breaking(Buffer.alloc(10)), { recipients: [recipient] }))).rejects.toThrow(
    'the disk went',
  )
  const file = await all(sealed(inPieces(Buffer.alloc(10), 10), { recipients: [recipient] }))
  await expect(all(opened(breaking(file), { identities: [identity] }))).rejects.toThrow('the disk went')
})

test('more flows by than is held', async () => {
  const { recipient, identity } = await newKeyPair()
  let made = 0
  async function* long() {
    for (let at = 0; at < 400; at += 1) {
      made += 65_536
      yield Buffer.alloc(65_536)
    }
  }
  let most = 0
  let taken = 0
  for await (const piece of opened(sealed(long(), { recipients: [recipient] }), { identities: [identity] })) {
    taken += piece.length
    most = Math.max(most, made - taken)
  }
  expect(taken).toBe(400 * 65_536)
  expect(most).toBeLessThan(2_000_000)
})

test('a key with a wrong letter isn’t one', async () => {
  const { recipient, identity } = await newKeyPair()
  const mistyped = (key: string) => key.slice(0, -1) + (key.at(-1)!.toLowerCase() === 'q' ? 'p' : 'q')
  expect([
    isRecipient(recipient),
    isRecipient(mistyped(recipient)),
    isRecipient(identity),
    isRecipient(''),
  ]).toEqual([true, false, false, false])
  expect([
    isIdentity(identity),
    isIdentity(mistyped(identity)),
    isIdentity(recipient),
    isIdentity(''),
  ]).toEqual([true, false, false, false])
})
