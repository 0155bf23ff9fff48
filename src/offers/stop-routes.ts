import type { FastifyInstance } from 'fastify'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { languageOf } from '../http/language.ts'
import { FEW_A_MINUTE, MANY_A_MINUTE } from '../http/rate-limits.ts'
import { t } from '../language/catalogue.ts'
import { isStopLink, stopOffers } from './stop-link.ts'

declare module '../http/render.ts' {
  interface Views {
    'offers/stop': { action: string; isDone: boolean }
  }
}

interface ByToken {
  Params: { id: string; token: string }
}

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/

/**
 * Where a mail that sells is answered with "no more". Mail programs post here by themselves at one press (RFC 8058), from
 * anywhere and without cookies, so that the token alone is believed; opening the page changes nothing.
 */
export async function stopOffersRoutes(app: FastifyInstance, deps: Deps): Promise<void> {
  await app.register(async scope => {
    // The form that is posted says nothing that the address doesn't; it may come in parts.
    scope.addContentTypeParser(
      'multipart/form-data',
      { bodyLimit: 16 * 1024, parseAs: 'string' },
      (_request, _body, done) => done(null, {}),
    )
    const path = '/offers-off/:id/:token'
    scope.get<ByToken>(path, { config: { access: 'link', ...MANY_A_MINUTE } }, async ({ params }, reply) => {
      requireLink(deps, params)
      return reply.page('offers/stop', {
        action: `/offers-off/${params.id}/${params.token}`,
        isDone: false,
      })
    })
    const config = { access: 'link', crossSite: true, ...FEW_A_MINUTE } as const
    scope.post<ByToken>(path, { config }, async (request, reply) => {
      const { id, token } = request.params
      requireLink(deps, request.params)
      await stopOffers(deps, id, t(languageOf(request), 'offers.stop'))
      return reply.page('offers/stop', { action: `/offers-off/${id}/${token}`, isDone: true })
    })
  })
}

function requireLink({ secretKey }: Deps, { id, token }: ByToken['Params']): void {
  const isOurs = isStopLink(secretKey, id, token)
  if (!isOurs || !UUID.test(id)) throw new NotFound()
}
