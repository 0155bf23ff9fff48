import { signWebhook } from '../lib/webhook.ts'
import type { Gateway } from '../outbox/gateway.ts'
import { stopped } from '../outbox/given-up.ts'
import type { OutboxMessage } from '../outbox/queries.ts'
import { phoneKey } from '../places/phone-key.ts'
import { GATEWAY, GATEWAY_AWAY } from './faults.ts'
import type { LetterDeps } from './letter.ts'

const DEADLINE = 10_000
/** The gateway is busy, or its own sign-in is wrong: that can be mended, so these are tried again. */
const FOR_NOW = [401, 403, 404, 405, 408, 409, 421, 425, 429]

/** A gateway that answered something else than yes. */
class GatewayAnswered extends Error {
  readonly status: number

  constructor(status: number) {
    super(`The gateway answered ${status}`)
    this.status = status
  }
}

/**
 * Hands a text to the gateway, signed, with the id of the message for `webhook-id`: the same when it is sent again.
 * Redirects are not followed, and what it answers is not read.
 * @throws what `gatewayFaultOf` puts into a word
 */
export async function sendText(
  { now, standing }: LetterDeps,
  { address, secret }: Gateway,
  row: Pick<OutboxMessage, 'id' | 'number' | 'language' | 'phone'>,
  words: string,
): Promise<void> {
  const { business } = await standing.read()
  const { id, number: request, language } = row
  const body = JSON.stringify({
    type: 'text',
    to: numberOf(row.phone, business?.country ?? ''),
    text: words,
    request,
    language,
  })
  const answer = await fetch(address, {
    method: 'POST',
    headers: { 'content-type': 'application/json', ...signWebhook(secret, id, now(), body) },
    body,
    redirect: 'manual',
    signal: AbortSignal.timeout(DEADLINE),
  })
  await answer.body?.cancel()
  if (!answer.ok) throw new GatewayAnswered(answer.status)
}

/** What a gateway did wrong, in a word of faults.ts; a refusal of this very text stops it. */
export function gatewayFaultOf(error: unknown): string {
  if (!(error instanceof GatewayAnswered)) return GATEWAY_AWAY
  const { status } = error
  const fault = `${GATEWAY} ${status}`
  return status >= 400 && status < 500 && !FOR_NOW.includes(status) ? stopped(fault) : fault
}

/** The digits of a phone number as it was typed. */
export function digitsOf(phone: string): string {
  return phone.replace(/\D/g, '')
}

/** A phone number as a gateway wants it, in E.164 with the code of the business's country; else its digits as typed. */
export function numberOf(phone: string, country: string): string {
  return phoneKey(phone, country) ?? digitsOf(phone)
}
