import type { FastifyError, FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { ConnectionLost } from '../db/postgres-pool.ts'
import { type Key, t } from '../language/catalogue.ts'
import type { Guesses } from '../limits/guesses.ts'
import type { Hold } from '../limits/hold.ts'
import { networkOf } from '../limits/network.ts'
import { againOf } from './kept-fields.ts'
import { PERMISSIONS_POLICY } from './permissions-policy.ts'

const AWAY = 'error.503'
const FULL = 'error.full'
/** When to come again after the database could not be reached, in seconds. */
const COME_AGAIN = 10
/** The disk is full: as PostgreSQL says it, and as the system does. */
const NO_ROOM = ['53100', 'ENOSPC']
const KNOWN = [400, 403, 404, 405, 408, 413, 414, 415, 429] as const

/** A refusal that the visitor may read: `key` is the catalogue's, `status` a 4xx or 503. */
export class Refusal extends Error {
  readonly status: number
  readonly key: Key
  readonly params: Record<string, string>

  constructor(status: number, key: Key, params: Record<string, string> = {}) {
    super(key)
    this.status = status
    this.key = key
    this.params = params
  }
}

export class NotFound extends Refusal {
  constructor() {
    super(404, 'error.not-found')
  }
}

/** What was asked no longer fits the state of things: somebody was faster, or it was done already. */
export class Conflict extends Refusal {
  constructor(key: Key, params: Record<string, string> = {}) {
    super(409, key, params)
  }
}

/**
 * One place that answers every fault: a page, or JSON where JSON was asked for. Who asks too often is held for a little, and
 * so is who tries one address of links after another.
 */
export function answerErrors(
  app: FastifyInstance,
  { hold, guesses }: { hold: Hold; guesses: Guesses },
): void {
  app.setNotFoundHandler((request, reply) => answer(request, reply, new NotFound()))
  app.setErrorHandler<FastifyError | Refusal>(async (error, request, reply) => {
    const found = refusalOf(error, request)
    const guessed = found instanceof NotFound && request.routeOptions.config.access === 'link'
    const tooMany = guessed && !guesses.allow(networkOf(request.ip))
    const refusal = tooMany ? new Refusal(429, 'error.429') : found
    if (refusal?.status === 429 || refusal?.key === 'error.busy') await hold.wait()
    if (!refusal || refusal.status === 503) request.log.error({ err: error }, 'fault')
    return answer(request, reply, refusal)
  })
}

/** Answers an address that can't be read at all: Fastify's own answer would repeat it, and no hook has run. */
export function answerBadAddress(_error: FastifyError, _request: FastifyRequest, reply: FastifyReply): void {
  const headers = {
    'x-content-type-options': 'nosniff',
    'cache-control': 'no-store',
    'permissions-policy': PERMISSIONS_POLICY,
  }
  reply
    .code(400)
    .headers(headers)
    .type('text/plain; charset=utf-8')
    .send(`${t('en', 'error.400')}\n`)
}

function refusalOf(error: FastifyError | Refusal, request: FastifyRequest): Refusal | null {
  if (error instanceof Refusal) return error
  if (error instanceof ConnectionLost) return new Refusal(503, AWAY)
  if (NO_ROOM.includes(error.code)) return new Refusal(503, FULL)
  // The time ran out on a body that never came, not on our work.
  if (error.code === 'FST_ERR_HANDLER_TIMEOUT' && !request.raw.complete) return new Refusal(408, 'error.408')
  const status = error.statusCode ?? 500
  if (status < 400 || status > 499) return null
  const known = KNOWN.find(one => one === status) ?? 400
  return new Refusal(status, `error.${known}`)
}

async function answer(request: FastifyRequest, reply: FastifyReply, refusal: Refusal | null) {
  const status = refusal?.status ?? 500
  const key = refusal?.key ?? 'error.500'
  reply.header('cache-control', 'no-store')
  if (key === AWAY || key === FULL) reply.header('retry-after', COME_AGAIN)
  if (wantsJson(request)) {
    const message = t('en', key, refusal?.params)
    return reply.code(status).send({ errors: [{ field: '', message }], request: request.id })
  }
  try {
    const params = refusal?.params ?? {}
    const again = status >= 500 ? againOf(request) : null
    return await reply.page('errors/error', { key, params, status, requestId: request.id, again }, status)
  } catch (error) {
    // A page that is no fault of ours asks the database, which may fail then.
    request.log.error({ err: error }, 'fault in the error page')
    return reply
      .code(status)
      .type('text/plain; charset=utf-8')
      .send(`${t('en', key, refusal?.params)}\n${request.id}\n`)
  }
}

/** Whether the answer should be JSON: always on this route, asked for by Accept, or JSON itself and taking anything. */
export function wantsJson(request: FastifyRequest): boolean {
  if (request.routeOptions.config.json) return true
  const accept = request.headers.accept ?? '*/*'
  if (accept.includes('application/json')) return true
  const sentJson = (request.headers['content-type'] ?? '').startsWith('application/json')
  return sentJson && !accept.includes('text/html')
}
