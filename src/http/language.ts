import type { FastifyInstance, FastifyRequest } from 'fastify'
import type { Language } from '../language/language.ts'
import { worksInOffice } from './roles.ts'
import { fieldsIn } from './uploaded.ts'

const COOKIE = 'language'

declare module 'fastify' {
  interface FastifyContextConfig {
    /** The page is in English alone, whoever asks. Those of the owner and the office are without saying so. */
    englishOnly?: boolean
  }
}

/**
 * The language to answer in: as picked (`?language=es`), as picked before, else as the browser prefers;
 * English where a page has no other.
 */
export function languageOf(request: FastifyRequest): Language {
  if (isEnglishOnly(request)) return 'en'
  const picked = sentLanguage(request) ?? request.cookies?.[COOKIE]
  if (picked === 'en' || picked === 'es') return picked
  const preferred = (request.headers['accept-language'] ?? '').split(',').map(part => part.trim().slice(0, 2))
  const first = preferred.find(code => code === 'en' || code === 'es')
  return (first as Language | undefined) ?? 'en'
}

/**
 * The language that was picked and has to be sent along from page to page, as a browser that keeps no cookie of ours, in
 * a frame on another site, would forget it; null where that isn't so.
 */
export function languageToCarry(request: FastifyRequest): Language | null {
  return request.cookies?.[COOKIE] === undefined ? sentLanguage(request) : null
}

/** An address of ours with the language in it that has to be sent along. */
export function inSameLanguage(request: FastifyRequest, path: string): string {
  const language = languageToCarry(request)
  if (!language) return path
  const [address, place] = path.split('#')
  return `${address}${path.includes('?') ? '&' : '?'}language=${language}${place ? `#${place}` : ''}`
}

// By the address, or by a form of a page that was asked for with it.
function sentLanguage(request: FastifyRequest): Language | null {
  for (const { language } of [fieldsIn(request.query), fieldsIn(request.body)]) {
    if (language === 'en' || language === 'es') return language
  }
  return null
}

/** Whether the page asked for is in English alone: all that the owner and the office see is. */
export function isEnglishOnly(request: FastifyRequest): boolean {
  const { access, englishOnly } = request.routeOptions.config
  if (englishOnly) return true
  const { account } = request
  if (access === 'owner' || access === 'office') return account === null || worksInOffice(account)
  return access === 'staff' && account !== null && worksInOffice(account)
}

/** Keeps a picked language in a cookie of its own. */
export function keepPickedLanguage(app: FastifyInstance): void {
  app.addHook('onRequest', (request, reply, done) => {
    const { language } = (request.query ?? {}) as Record<string, unknown>
    if (language === 'en' || language === 'es') reply.setCookie(COOKIE, language, { maxAge: 31_536_000 })
    done()
  })
}
