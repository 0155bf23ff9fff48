import type { FastifyInstance, FastifyRequest } from 'fastify'
import { findBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { languageOf } from '../http/language.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { momentInWords } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { hashSecret } from '../lib/tokens.ts'
import type { BrowserName } from './browser-name.ts'
import { dropSession, sessionSecret } from './session-cookies.ts'
import { deleteOtherSessions, deleteSessionById, findSessions } from './session-queries.ts'

/** One place where somebody is signed in, in words. */
export interface SessionShown {
  id: number
  browser: string
  made: string
  seen: string
  /** Whether it is the one that asks. */
  here: boolean
}

/** Ends the sessions of one's own account, one by one or all but this. */
export function sessionRoutes(app: FastifyInstance, deps: Deps): void {
  app.post<{ Params: { id: string } }>(
    '/sessions/:id/end',
    { config: { access: 'staff' } },
    async (request, reply) => {
      const { id } = request.params
      if (!/^\d{1,15}$/.test(id)) throw new NotFound()
      const own = await sessionsShown(request, deps)
      await deleteSessionById(deps.db, requireAccount(request).id, Number(id))
      const isHere = own.some(session => session.here && session.id === Number(id))
      if (isHere) dropSession(reply, deps)
      say(reply, t(languageOf(request), isHere ? 'account.signed-out' : 'account.session-ended'))
      return reply.redirect(isHere ? '/sign-in' : '/password', 303)
    },
  )

  app.post('/sessions/end-others', { config: { access: 'staff' } }, async (request, reply) => {
    const kept = hashSecret(sessionSecret(request, deps) ?? '')
    const ended = await deleteOtherSessions(deps.db, requireAccount(request).id, kept)
    say(reply, t(languageOf(request), 'account.others-ended', { count: ended }))
    return reply.redirect('/password', 303)
  })
}

/** Where the one who asks is signed in, this browser too. */
export async function sessionsShown(request: FastifyRequest, deps: Deps): Promise<SessionShown[]> {
  const language = languageOf(request)
  const here = hashSecret(sessionSecret(request, deps) ?? '')
  const zone = (await findBusiness(deps.db))?.time_zone ?? 'UTC'
  const inWords = (instant: string) => momentInWords(instant, zone, language)
  const rows = await findSessions(deps.db, requireAccount(request).id, deps.now().toString())
  return rows.map(row => ({
    id: row.id,
    browser: browserInWords(row, language),
    made: inWords(row.made_at),
    seen: inWords(row.seen_at),
    here: row.secret_hash === here,
  }))
}

function browserInWords({ browser, system }: BrowserName, language: Language): string {
  if (browser && system) return t(language, 'account.browser-on', { browser, system })
  if (system) return t(language, 'account.browser-on-system', { system })
  return browser ?? t(language, 'account.browser-unknown')
}
