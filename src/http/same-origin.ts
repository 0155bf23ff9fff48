import type { FastifyInstance, FastifyRequest } from 'fastify'
import { Refusal } from './errors.ts'

/**
 * Refuses every request that could change something unless the browser says that it comes from our own
 * pages; routes that change nothing opt out with `config: { crossSite: true }`.
 */
export function refuseCrossSite(app: FastifyInstance, publicUrl: string): void {
  app.addHook('onRequest', (request, _reply, done) => {
    if (['GET', 'HEAD', 'OPTIONS'].includes(request.method)) return done()
    if (request.routeOptions.config.crossSite || isOurs(request, publicUrl)) return done()
    done(new Refusal(403, 'error.403'))
  })
}

function isOurs(request: FastifyRequest, publicUrl: string): boolean {
  const site = request.headers['sec-fetch-site']
  if (site !== undefined) return site === 'same-origin'
  const { origin } = request.headers
  if (origin === undefined || !URL.canParse(origin)) return false
  // A phone in the same network opens the demo by the machine's address, not by PUBLIC_URL.
  return origin === publicUrl || new URL(origin).host === request.headers.host
}
