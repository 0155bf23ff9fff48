import { createCipheriv, createDecipheriv, hkdfSync, randomBytes } from 'node:crypto'

const CIPHER = 'aes-256-gcm'
const NONCE_BYTES = 12
const TAG_BYTES = 16

/** A text that only whoever has the key can read, base64url: AES-256-GCM under a key of its own for each purpose. */
export function seal(key: string, purpose: string, text: string): string {
  const nonce = randomBytes(NONCE_BYTES)
  const cipher = createCipheriv(CIPHER, keyFor(key, purpose), nonce, { authTagLength: TAG_BYTES })
  const sealed = Buffer.concat([cipher.update(text, 'utf8'), cipher.final()])
  return Buffer.concat([nonce, cipher.getAuthTag(), sealed]).toString('base64url')
}

/** The text again; null where it was sealed by another key, for another purpose, or changed since. */
export function unseal(key: string, purpose: string, sealed: string): string | null {
  const bytes = Buffer.from(sealed, 'base64url')
  if (bytes.length < NONCE_BYTES + TAG_BYTES) return null
  const nonce = bytes.subarray(0, NONCE_BYTES)
  const decipher = createDecipheriv(CIPHER, keyFor(key, purpose), nonce, { authTagLength: TAG_BYTES })
  decipher.setAuthTag(bytes.subarray(NONCE_BYTES, NONCE_BYTES + TAG_BYTES))
  try {
    return (
      decipher.update(bytes.subarray(NONCE_BYTES + TAG_BYTES), undefined, 'utf8') + decipher.final('utf8')
    )
  } catch {
    return null
  }
}

function keyFor(key: string, purpose: string): Uint8Array {
  return new Uint8Array(hkdfSync('sha256', key, '', purpose, 32))
}
