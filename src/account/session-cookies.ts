import type { FastifyReply, FastifyRequest } from 'fastify'
import type { Deps } from '../deps.ts'
import { languageOf } from '../http/language.ts'
import { networkOf } from '../limits/network.ts'
import { browserName } from './browser-name.ts'
import { sessionCookie } from './session.ts'
import type { Here, Session } from './sign-in.ts'
import { type From, knownBrowser } from './sign-in-delays.ts'

const DAY_SECONDS = 24 * 60 * 60
const KNOWN = 'known'

/** Keeps a session's secret in the browser for as long as it stands, and the mark that it has signed in with this address before. */
export function keepSession(reply: FastifyReply, deps: Deps, { secret, days }: Session, email: string): void {
  const { name, options } = sessionCookie(deps)
  reply.setCookie(name, secret, { ...options, maxAge: days * DAY_SECONDS })
  reply.setCookie(KNOWN, knownBrowser(deps.secretKey, email), { ...options, maxAge: 365 * DAY_SECONDS })
}

export function dropSession(reply: FastifyReply, deps: Deps): void {
  const { name, options } = sessionCookie(deps)
  reply.clearCookie(name, options)
}

export function sessionSecret(request: FastifyRequest, deps: Deps): string | undefined {
  return request.cookies[sessionCookie(deps).name]
}

/** The browser that asks, and the session it has. */
export function browserHere(request: FastifyRequest, deps: Deps): Here {
  return {
    name: browserName(request.headers['user-agent']),
    oldSecret: sessionSecret(request, deps),
    language: languageOf(request),
  }
}

/** From where somebody tries to sign in. */
export function cameFrom(request: FastifyRequest): From {
  return { known: request.cookies[KNOWN], network: networkOf(request.ip) }
}
