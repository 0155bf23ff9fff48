import type { FastifyError, FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { t } from '../language/catalogue.ts'

/** A refusal that the visitor may read: `key` is the catalogue's, `status` a 4xx. */
export class Refusal extends Error {
  readonly status: number
  readonly key: string
  readonly params: Record<string, string>

  constructor(status: number, key: string, params: Record<string, string> = {}) {
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
  constructor(key: string, params: Record<string, string> = {}) {
    super(409, key, params)
  }
}

/** One place that answers every fault: a page, or JSON where JSON was asked for. */
export function answerErrors(app: FastifyInstance): void {
  app.setNotFoundHandler((request, reply) => answer(request, reply, new NotFound()))
  app.setErrorHandler<FastifyError | Refusal>((error, request, reply) => {
    const refusal = refusalOf(error)
    if (!refusal) request.log.error({ err: error }, 'fault')
    return answer(request, reply, refusal)
  })
}

function refusalOf(error: FastifyError | Refusal): Refusal | null {
  if (error instanceof Refusal) return error
  const status = error.statusCode ?? 500
  if (status < 400 || status > 499) return null
  const known = [400, 403, 404, 405, 408, 413, 414, 415, 429]
  return new Refusal(status, known.includes(status) ? `error.${status}` : 'error.400')
}

function answer(request: FastifyRequest, reply: FastifyReply, refusal: Refusal | null) {
  const status = refusal?.status ?? 500
  const key = refusal?.key ?? 'error.500'
  reply.header('cache-control', 'no-store')
  if (wantsJson(request)) {
    const message = t('en', key, refusal?.params)
    return reply.code(status).send({ errors: [{ field: '', message }], request: request.id })
  }
  return reply.page(
    'errors/error',
    { key, params: refusal?.params ?? {}, status, requestId: request.id },
    status,
  )
}

/** Whether the answer should be JSON: asked for by Accept, or the request itself is JSON and takes anything. */
export function wantsJson(request: FastifyRequest): boolean {
  const accept = request.headers.accept ?? '*/*'
  if (accept.includes('application/json')) return true
  const sentJson = (request.headers['content-type'] ?? '').startsWith('application/json')
  return sentJson && !accept.includes('text/html')
}
