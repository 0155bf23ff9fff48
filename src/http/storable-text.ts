import type { FastifyInstance } from 'fastify'
import { Refusal } from './errors.ts'

/**
 * Refuses with 400 whatever holds text that PostgreSQL can't keep: the character NUL, or half of a surrogate
 * pair, which only JSON can bring. No person types either; past this hook every text can be stored.
 */
export function refuseUnstorableText(app: FastifyInstance): void {
  app.addHook('preValidation', (request, _reply, done) => {
    if (isStorable([request.params, request.query, request.body])) done()
    else done(new Refusal(400, 'error.400'))
  })
}

/**
 * Whether every text in these parts, however deep, can be stored. With a list of what is left to look at, not by
 * recursion, which deep JSON would overflow.
 */
export function isStorable(parts: unknown[]): boolean {
  const left = [...parts]
  while (left.length > 0) {
    const part = left.pop()
    if (typeof part === 'string' && (part.includes('\0') || !part.isWellFormed())) return false
    if (typeof part === 'object' && part !== null) {
      for (const [name, value] of Object.entries(part)) left.push(name, value)
    }
  }
  return true
}
