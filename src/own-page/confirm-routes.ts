import type { FastifyInstance, FastifyRequest } from 'fastify'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { languageOf } from '../http/language.ts'
import { FEW_A_MINUTE, MANY_A_MINUTE } from '../http/rate-limits.ts'
import { t } from '../language/catalogue.ts'
import { confirmAddress } from '../requests/confirm-address.ts'
import { findByToken, findLinkPath } from '../requests/links.ts'
import { requireAddress } from '../requests/mail-homeowner.ts'
import { confirmReal } from '../requests/maybe-junk/decide.ts'
import { findAsked } from '../requests/maybe-junk/queries.ts'

declare module '../http/render.ts' {
  interface Views {
    'own-page/confirm-held': { number: string; action: string }
    'own-page/confirm': { number: string; email: string; action: string }
  }
}

type ByToken = { Params: { token: string } }

const READS = { access: 'link', ...MANY_A_MINUTE } as const
const CHANGES = { access: 'link', ...FEW_A_MINUTE } as const

/**
 * Where the link that was mailed to an address leads. Programs that look mail through open links too, so that opening
 * proves nothing: only the button does. A link about what is held as maybe junk leads here too, before and after.
 */
export function confirmRoutes(app: FastifyInstance, deps: Deps): void {
  app.get<ByToken>('/c/:token', { config: READS }, async (request, reply) => {
    const held = await findAsked(deps.db, request.params.token)
    if (held)
      return reply.page('own-page/confirm-held', {
        number: held.number,
        action: `/c/${request.params.token}`,
      })
    const { id, ownPath } = await requireByToken(request, deps)
    const { number, email, email_confirmed_at } = await requireAddress(deps.db, id)
    if (email_confirmed_at) return reply.redirect(ownPath, 303)
    return reply.page('own-page/confirm', { number, email, action: `/c/${request.params.token}` })
  })

  app.post<ByToken>('/c/:token', { config: CHANGES }, async (request, reply) => {
    const wasHeld = (await confirmReal(deps, request.params.token)) !== undefined
    const { id, ownPath } = await requireByToken(request, deps)
    await confirmAddress(deps, id)
    say(reply, t(languageOf(request), wasHeld ? 'held.done' : 'confirm.done'))
    return reply.redirect(ownPath, 303)
  })
}

async function requireByToken({ params }: FastifyRequest<ByToken>, deps: Deps) {
  const id = await findByToken(deps.db, 'email address', params.token, deps.now())
  const ownPath = id && (await findLinkPath(deps.db, deps.secretKey, 'own page', id))
  if (!id || !ownPath) throw new NotFound()
  return { id, ownPath }
}
