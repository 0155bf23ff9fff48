import type { FastifyInstance } from 'fastify'

/** Whoever signs in, is told something, or has another language is shown another page at the same address. */
export const PAGE_VARIES = 'accept-encoding, accept-language, cookie'

/**
 * Says who may keep an answer that doesn't say so itself: what anyone may open a browser by itself, which asks each time
 * whether it still stands; anything else nobody, search engines too.
 */
export function sayWhoMayKeep(app: FastifyInstance): void {
  app.addHook('onSend', (request, reply, _payload, done) => {
    const { access } = request.routeOptions.config
    if (access === 'open' && !reply.hasHeader('cache-control')) {
      reply.header('cache-control', 'private, no-cache').header('vary', PAGE_VARIES)
    }
    if (access !== 'open' && access !== 'asset') {
      reply.header('cache-control', 'no-store').header('x-robots-tag', 'noindex, nofollow')
    }
    done()
  })
}
