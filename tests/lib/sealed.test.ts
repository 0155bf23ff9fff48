import { expect, test } from 'vitest'
import { seal, unseal } from '../../src/lib/sealed.ts'

const KEY = 'a key for tests only, 32 characters or more'

test('what is sealed is read again with the same key and purpose, and with nothing else', () => {
  const sealed = seal(KEY, 'one thing', 'ñ🌱 and more')
  expect(unseal(KEY, 'one thing', sealed)).toBe('ñ🌱 and more')
  expect(unseal(`${KEY}.`, 'one thing', sealed)).toBeNull()
  expect(unseal(KEY, 'another thing', sealed)).toBeNull()
  expect(seal(KEY, 'one thing', 'ñ🌱 and more')).not.toBe(sealed)
})

test('what was changed, cut off or never sealed is null', () => {
  const bytes = Buffer.from(seal(KEY, 'one thing', 'a secret'), 'base64url')
  for (const [index] of bytes.entries()) {
    const changed = Buffer.from(bytes)
    changed[index]! ^= 1
    expect(unseal(KEY, 'one thing', changed.toString('base64url'))).toBeNull()
    expect(unseal(KEY, 'one thing', bytes.subarray(0, index).toString('base64url'))).toBeNull()
  }
  expect(unseal(KEY, 'one thing', '')).toBeNull()
})
