import { createHmac } from 'node:crypto'
import { sameSecret } from './tokens.ts'

/** The headers of a signed message, as the specification Standard Webhooks 1.0.0 names them. */
export interface SignedHeaders {
  'webhook-id': string
  'webhook-timestamp': string
  'webhook-signature': string
}

/** How long a signed message counts, before and after the moment that it names. */
const TOLERANCE_SECONDS = 300
const PREFIX = 'whsec_'

/** A secret as it is written down, of its bytes. */
export function webhookSecret(bytes: Buffer): string {
  return PREFIX + bytes.toString('base64')
}

/** Signs the body of a message: HMAC-SHA256 of id, moment in seconds, and body, with dots between. */
export function signWebhook(secret: string, id: string, at: Temporal.Instant, body: string): SignedHeaders {
  const timestamp = String(Math.floor(at.epochMilliseconds / 1000))
  return {
    'webhook-id': id,
    'webhook-timestamp': timestamp,
    'webhook-signature': `v1,${signatureOf(secret, id, timestamp, body)}`,
  }
}

/** The id of a message that was signed with this secret within five minutes of now; null of any other. */
export function verifyWebhook(
  secret: string,
  headers: Partial<Record<string, string | string[]>>,
  body: string,
  now: Temporal.Instant,
): string | null {
  const { 'webhook-id': id, 'webhook-timestamp': timestamp, 'webhook-signature': signatures } = headers
  if (typeof id !== 'string' || typeof timestamp !== 'string' || typeof signatures !== 'string') return null
  if (!/^[!-~]{1,200}$/.test(id) || !/^\d{1,12}$/.test(timestamp)) return null
  if (Math.abs(now.epochMilliseconds / 1000 - Number(timestamp)) > TOLERANCE_SECONDS) return null
  const expected = `v1,${signatureOf(secret, id, timestamp, body)}`
  // There may be several, while a secret is changed.
  return signatures.split(' ').some(signature => sameSecret(signature, expected)) ? id : null
}

function signatureOf(secret: string, id: string, timestamp: string, body: string): string {
  const key = Buffer.from(secret.slice(PREFIX.length), 'base64')
  return createHmac('sha256', key).update(`${id}.${timestamp}.${body}`).digest('base64')
}
