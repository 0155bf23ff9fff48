import { createHash } from 'node:crypto'
import type { FastifyReply, FastifyRequest } from 'fastify'
import type { Deps } from '../deps.ts'
import type { Told } from '../estimate/job/bed.ts'
import { linkToken, sameSecret } from '../lib/tokens.ts'
import { type Contact, cleanContact } from './contact-form.ts'

const COOKIE = 'sent'
const HOUR_SECONDS = 60 * 60

/**
 * What is sent, the beds as told and all of who and where, as a SHA-256 in hex: the same for the same content,
 * whatever the order of its fields and the spaces around what was typed.
 */
export function contentHash(told: Told, contact: Partial<Contact>): string {
  const canonical = JSON.stringify([inOrder(told), cleanContact({ ...contact })])
  return createHash('sha256').update(canonical).digest('hex')
}

function inOrder(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(inOrder)
  if (value === null || typeof value !== 'object') return String(value)
  const entries = Object.entries(value).filter(([, entry]) => entry !== undefined)
  return entries.sort(([a], [b]) => (a < b ? -1 : 1)).map(([name, entry]) => [name, inOrder(entry)])
}

/** Marks the browser that sent a request under a key as the one that did, for an hour. */
export function markSender(reply: FastifyReply, deps: Deps, key: string, number: string): void {
  const mark = `${number}.${senderToken(deps, key, number)}`
  reply.setCookie(COOKIE, mark, { path: '/requests', maxAge: HOUR_SECONDS })
}

/** The number of the request that this browser has sent under a key; undefined where it has sent none. */
export function numberSentBy(request: FastifyRequest, deps: Deps, key: string): string | undefined {
  const [number = '', token = ''] = (request.cookies[COOKIE] ?? '').split('.')
  return sameSecret(token, senderToken(deps, key, number)) ? number : undefined
}

// Of the number too: whoever sends something else under a key that he has seen must not pass for the first one.
function senderToken({ secretKey }: Deps, key: string, number: string): string {
  return linkToken(secretKey, 'sent', `${key}\n${number}`)
}
