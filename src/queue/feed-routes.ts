import type { FastifyInstance } from 'fastify'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { languageOf } from '../http/language.ts'
import { MANY_A_MINUTE } from '../http/rate-limits.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { endFeed, findFeedPath, findSubscriber, makeFeed, writeFeed } from './feed.ts'

declare module '../http/render.ts' {
  interface Views {
    'days/calendar': { address: string | null; inApp: string | null; scripts: string[] }
  }
}

const STAFF = { config: { access: 'staff' } } as const
const PAGE = '/days/calendar'

/** Everybody's own page of the calendar to subscribe to. */
export function feedRoutes(app: FastifyInstance, deps: Deps): void {
  app.get(PAGE, STAFF, async (request, reply) => {
    const { id } = requireAccount(request)
    const path = await findFeedPath(deps, id)
    const address = path ? deps.config.publicUrl + path : null
    // Calendar programs know a subscription by this scheme.
    const inApp = address?.replace(/^https?:/, 'webcal:') ?? null
    return reply.page('days/calendar', { address, inApp, scripts: ['copy.js'] })
  })

  app.post(PAGE, STAFF, async (request, reply) => {
    await makeFeed(deps, requireAccount(request).id)
    say(reply, t(languageOf(request), 'calendar.made'))
    return reply.redirect(PAGE, 303)
  })

  app.post(`${PAGE}/end`, STAFF, async (request, reply) => {
    await endFeed(deps, requireAccount(request).id)
    say(reply, t(languageOf(request), 'calendar.ended'))
    return reply.redirect(PAGE, 303)
  })
}

/** The calendar itself, for whatever program has the address. */
export function feedRoute(app: FastifyInstance, deps: Deps): void {
  app.get<{ Params: { token: string } }>(
    '/calendar/:token',
    { config: { access: 'link', ...MANY_A_MINUTE } },
    async (request, reply) => {
      const subscriber = await findSubscriber(deps.db, request.params.token)
      if (!subscriber) throw new NotFound()
      return reply.type('text/calendar; charset=utf-8').send(await writeFeed(deps, subscriber))
    },
  )
}
