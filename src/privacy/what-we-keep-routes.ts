import type { FastifyInstance } from 'fastify'
import type { Deps } from '../deps.ts'
import { languageOf } from '../http/language.ts'
import { translator } from '../language/catalogue.ts'
import { requireStanding } from '../rates/standing.ts'
import { KINDS, periodsOf } from './kinds.ts'

declare module '../http/render.ts' {
  interface Views {
    'privacy/what-we-keep': { kinds: { what: string; why: string; long: string; who: string }[] }
  }
}

/** What is kept about people, for homeowners. */
export function whatWeKeepRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/privacy', { config: { access: 'open' } }, async (request, reply) => {
    const { business } = await requireStanding(deps)
    const say = translator(languageOf(request), business.country)
    const periods = periodsOf(business)
    return reply.page('privacy/what-we-keep', {
      kinds: KINDS.map(({ what, why, long, who }) => ({
        what: say(what),
        why: say(why),
        long: say(long, periods),
        who: say(who),
      })),
    })
  })
}
