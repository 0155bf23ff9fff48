import { IncomingMessage, ServerResponse } from 'node:http'
import { Socket } from 'node:net'
import type { FastifyInstance } from 'fastify'
import helmet from 'helmet'
import { PERMISSIONS_POLICY } from './permissions-policy.ts'

/** Headers for every answer. Nothing inline and nothing from elsewhere is ever allowed to run or load. */
export function sendSecurityHeaders(app: FastifyInstance, publicUrl: string): void {
  const headers = securityHeaders(publicUrl.startsWith('https:'))
  app.addHook('onRequest', (_request, reply, done) => {
    reply.headers(headers)
    done()
  })
}

/**
 * Lets the sites that the owner named, as origins, show the pages of this scope in a frame. `sites` is asked as an answer
 * goes out; what it gives is the same object for as long as nothing of it changes.
 */
export function letSitesShow(app: FastifyInstance, publicUrl: string, sites: () => readonly string[]): void {
  const policies = new WeakMap<readonly string[], string>()
  const policyOf = (named: readonly string[]) => {
    const known = policies.get(named)
    if (known) return known
    const made = securityHeaders(publicUrl.startsWith('https:'), named)['content-security-policy']!
    policies.set(named, made)
    return made
  }
  app.addHook('onSend', (_request, reply, _payload, done) => {
    const named = sites()
    // A picture has a policy of its own, and needn't be shown in a frame.
    const isPage = !String(reply.getHeader('content-security-policy')).includes('sandbox')
    if (named.length > 0 && isPage) {
      // X-Frame-Options can name no site; browsers that know no frame-ancestors are long gone.
      reply.header('content-security-policy', policyOf(named)).removeHeader('x-frame-options')
    }
    done()
  })
}

/** They are the same for every answer, so helmet is asked once, with an answer that goes nowhere. */
function securityHeaders(https: boolean, sites: readonly string[] = []): Record<string, string> {
  const request = new IncomingMessage(new Socket())
  const response = new ServerResponse(request)
  const decide = helmet({
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
        frameAncestors: sites.length > 0 ? [...sites] : ["'none'"],
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
  decide(request, response, () => {})
  return { ...response.getHeaders(), 'permissions-policy': PERMISSIONS_POLICY } as Record<string, string>
}
