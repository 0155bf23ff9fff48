import type { FastifyInstance } from 'fastify'
import { Refusal } from './errors.ts'

/** More texts, names and lists than any form of ours or any job has; each of them is looked at. */
const MOST_PARTS = 20_000
/** The site-visit sheet with as many beds as the staff may put into a job. */
const MOST_PARTS_OF_STAFF = 60_000

/**
 * Refuses with 400 whatever holds text that PostgreSQL can't keep: the character NUL, or half of a surrogate
 * pair, which only JSON can bring. No person types either; past this hook every text can be stored. So is whatever has more
 * parts than are looked at.
 */
export function refuseUnstorableText(app: FastifyInstance): void {
  app.addHook('preValidation', (request, _reply, done) => {
    const { access } = request.routeOptions.config
    const most = access === 'owner' || access === 'office' ? MOST_PARTS_OF_STAFF : MOST_PARTS
    if (isStorable([request.params, request.query, request.body], most)) done()
    else done(new Refusal(400, 'error.400'))
  })
}

/**
 * Whether every text in these parts, however deep, can be stored, and they have no more than `most` of them. With a list of what is left to look at, not by
 * recursion, which deep JSON would overflow.
 */
export function isStorable(parts: unknown[], most = Number.POSITIVE_INFINITY): boolean {
  const left = [...parts]
  for (let seen = 1; left.length > 0; seen++) {
    if (seen + left.length > most) return false
    const part = left.pop()
    if (typeof part === 'string' && (part.includes('\0') || !part.isWellFormed())) return false
    // Bytes are no text.
    if (typeof part === 'object' && part !== null && !(part instanceof Uint8Array)) {
      for (const [name, value] of Object.entries(part)) left.push(name, value)
    }
  }
  return true
}
