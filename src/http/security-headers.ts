import helmet from '@fastify/helmet'
import type { FastifyInstance } from 'fastify'
import { PERMISSIONS_POLICY } from './permissions-policy.ts'

/** Headers for every answer. Nothing inline and nothing from elsewhere is ever allowed to run or load. */
export async function sendSecurityHeaders(app: FastifyInstance, publicUrl: string): Promise<void> {
  const https = publicUrl.startsWith('https:')
  await app.register(helmet, {
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'none'"],
        scriptSrc: ["'self'"],
        styleSrc: ["'self'"],
        imgSrc: ["'self'"],
        connectSrc: ["'self'"],
        manifestSrc: ["'self'"],
        formAction: ["'self'"],
        baseUri: ["'none'"],
        frameAncestors: ["'none'"],
      },
    },
    // no-referrer would make our own form posts say "Origin: null".
    referrerPolicy: { policy: 'same-origin' },
    frameguard: { action: 'deny' },
    crossOriginOpenerPolicy: { policy: 'same-origin' },
    crossOriginResourcePolicy: { policy: 'same-origin' },
    crossOriginEmbedderPolicy: false,
    originAgentCluster: https,
    hsts: https ? { maxAge: 63_072_000, includeSubDomains: false } : false,
  })
  app.addHook('onSend', async (request, reply) => {
    reply.header('permissions-policy', PERMISSIONS_POLICY)
    const { access } = request.routeOptions.config
    if (access === 'open' || access === 'asset') return
    reply.header('cache-control', 'no-store')
    reply.header('x-robots-tag', 'noindex, nofollow')
  })
}
