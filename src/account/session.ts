import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import type { Deps } from '../deps.ts'
import { Refusal } from '../http/errors.ts'
import { ROLES } from '../http/roles.ts'
import { hashSecret } from '../lib/tokens.ts'
import { findSessionAccount, touchSession } from './session-queries.ts'

const TOUCH_AFTER_MINUTES = 5

/** `__Host-` needs https, which PUBLIC_URL tells. */
export function sessionCookie(deps: Deps): {
  name: string
  options: Parameters<FastifyReply['setCookie']>[2]
} {
  const secure = deps.config.publicUrl.startsWith('https:')
  return {
    name: secure ? '__Host-session' : 'session',
    options: { path: '/', httpOnly: true, sameSite: 'lax', secure },
  }
}

/** Sets `request.account` from the session cookie, on every route. */
export function readSessions(app: FastifyInstance, deps: Deps): void {
  const { name } = sessionCookie(deps)
  app.decorateRequest('account', null)
  app.decorateRequest('provedAt', null)
  app.addHook('onRequest', (request, _reply, done) => {
    const secret = request.cookies[name]
    if (!secret || request.routeOptions.config.access === 'asset') return done()
    readSession(request, deps, hashSecret(secret)).then(() => done(), done)
  })
}

async function readSession(request: FastifyRequest, deps: Deps, secretHash: string): Promise<void> {
  const now = deps.now()
  const row = await findSessionAccount(deps.db, secretHash, now.toString())
  if (!row) return
  const { seen_at, proved_at, ...account } = row
  request.account = account
  request.provedAt = proved_at
  const seen = Temporal.Instant.from(seen_at)
  if (now.since(seen).total('minutes') > TOUCH_AFTER_MINUTES)
    await touchSession(deps.db, secretHash, now.toString())
}

/**
 * Locks a scope: each of its routes is for those whose role opens it. A visitor who is not signed in is sent to sign in, and
 * comes back to the page that was asked for.
 */
export function guardStaffPages(app: FastifyInstance): void {
  app.addHook('onRequest', async (request, reply) => {
    if (!request.account) {
      const back = request.method === 'GET' ? `?back=${encodeURIComponent(request.url)}` : ''
      return reply.redirect(`/sign-in${back}`, 303)
    }
    const { access } = request.routeOptions.config
    if (!access || !ROLES[request.account.role].opens.includes(access))
      throw new Refusal(403, access === 'office' ? 'error.office-only' : 'error.owner-only')
  })
}
