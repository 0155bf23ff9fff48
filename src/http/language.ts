import type { FastifyInstance, FastifyRequest } from 'fastify'
import type { Language } from '../db/schema.ts'

const COOKIE = 'language'

/** The visitor's language: as picked (`?language=es`), as picked before, else as the browser prefers. */
export function languageOf(request: FastifyRequest): Language {
  const query = request.query as Record<string, unknown> | undefined
  const picked = query?.language ?? request.cookies?.[COOKIE]
  if (picked === 'en' || picked === 'es') return picked
  const preferred = (request.headers['accept-language'] ?? '').split(',').map(part => part.trim().slice(0, 2))
  const first = preferred.find(code => code === 'en' || code === 'es')
  return (first as Language | undefined) ?? 'en'
}

/** Keeps a picked language in a cookie of its own. */
export function keepPickedLanguage(app: FastifyInstance): void {
  app.addHook('onRequest', async (request, reply) => {
    const { language } = (request.query ?? {}) as Record<string, unknown>
    if (language !== 'en' && language !== 'es') return
    reply.setCookie(COOKIE, language, { maxAge: 31_536_000 })
  })
}
