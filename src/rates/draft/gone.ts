import type { FastifyReply } from 'fastify'

declare module '../../http/render.ts' {
  interface Views {
    'rates/draft/gone': { typed: { name: string; text: string }[] }
  }
}

/** Answers a form of something that is in the draft no more: 409, with all that was typed, to be copied. */
export function showGone(reply: FastifyReply, typed: Record<string, string> = {}) {
  const texts = Object.entries(typed)
    .filter(([, text]) => text.trim() !== '')
    .map(([name, text]) => ({ name: name.replaceAll('.', ' '), text }))
  return reply.page('rates/draft/gone', { typed: texts }, 409)
}
