import type { FastifyReply, FastifyRequest } from 'fastify'

const COOKIE = 'said'

/** Says a sentence on the next page that is shown; for the answer to a form that ends in a redirect. */
export function say(reply: FastifyReply, sentence: string): void {
  reply.setCookie(COOKIE, encodeURIComponent(sentence), { maxAge: 60 })
}

export function hasFlash(request: FastifyRequest): boolean {
  return Boolean(request.cookies?.[COOKIE])
}

export function takeFlash(request: FastifyRequest, reply: FastifyReply): string | null {
  const sentence = request.cookies?.[COOKIE]
  if (!sentence) return null
  reply.clearCookie(COOKIE)
  try {
    return decodeURIComponent(sentence).slice(0, 300)
  } catch {
    return null
  }
}
