import { createHash, createHmac, randomBytes, timingSafeEqual } from 'node:crypto'

/** A new random nonce, 128 bits as hex, to be stored with the link that is made from it. */
export function newNonce(): string {
  return randomBytes(16).toString('hex')
}

/** 256 bits of fresh randomness, base64url (43 characters). */
export function newSecret(): string {
  return randomBytes(32).toString('base64url')
}

/**
 * The token of a link: 256 bits, base64url (43 characters), made from the installation's key and a stored
 * nonce, so that the link can be shown again and a copy of the database alone gives none away.
 */
export function linkToken(key: string, purpose: string, nonce: string): string {
  return createHmac('sha256', key).update(`${purpose}\n${nonce}`).digest('base64url')
}

/** Whether two secrets are the same, in a time that doesn't tell where they differ. */
export function sameSecret(one: string, other: string): boolean {
  const [a, b] = [Buffer.from(one), Buffer.from(other)]
  return a.length === b.length && timingSafeEqual(a, b)
}

/** What is stored to find a secret again: its SHA-256, hex. Fit for random secrets only, not for passwords. */
export function hashSecret(secret: string): string {
  return createHash('sha256').update(secret).digest('hex')
}
