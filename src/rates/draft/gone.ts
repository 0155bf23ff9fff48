import type { FastifyReply } from 'fastify'

declare module '../../http/render.ts' {
  interface Views {
    'rates/draft/gone': { typed: { name: string; text: string }[] }
  }
}

/** Answers a form of something that is in the draft no more: 409, with all that was typed, to be copied. */
export function showGone(reply: FastifyReply, typed: Record<string, string> = {}) {
  const texts = Object.entries(typed)
    .filter(([name, text]) => text.trim() !== '' && !name.endsWith('.was'))
    .map(([name, text]) => ({ name: inWords(name), text }))
  return reply.page('rates/draft/gone', { typed: texts }, 409)
}

function inWords(name: string): string {
  return name.replaceAll('.', ' ').replace(/(?<=[a-z])[A-Z]/g, letter => ` ${letter.toLowerCase()}`)
}
