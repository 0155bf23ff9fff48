import type { FastifyInstance, FastifyRequest, FastifyServerOptions } from 'fastify'

/** What the log says of a fault: the database's own words may quote personal data, so only its codes stay. */
function describeFault(error: Error & Record<string, unknown>) {
  const fromDatabase = typeof error.code === 'string' && /^[0-9A-Z]{5}$/.test(error.code)
  return {
    type: error.name,
    message: fromDatabase ? '(database)' : error.message,
    code: error.code,
    table: error.table ?? error.table_name,
    constraint: error.constraint ?? error.constraint_name,
    stack: (error.stack ?? '')
      .split('\n')
      .filter(line => /^\s+at /.test(line))
      .join('\n'),
  }
}

/** The logger's settings: JSON lines with the route's pattern, never an address, a body or a header. */
export function logOptions(level: string, stream?: NodeJS.WritableStream): FastifyServerOptions['logger'] {
  return {
    level,
    ...(stream ? { stream } : {}),
    serializers: {
      req: (request: FastifyRequest) => ({
        method: request.method,
        route: request.routeOptions?.url ?? '(none)',
      }),
      err: describeFault as never,
    },
  }
}

/** Told of an answer: the route as its pattern, and how long it took in seconds. */
export type Answered = (method: string, route: string, status: number, seconds: number) => void

/** One line for every answer; `answered` hears of it too. */
export function logAnswers(app: FastifyInstance, answered?: Answered): void {
  app.addHook('onResponse', (request, reply, done) => {
    answered?.(
      request.method,
      request.routeOptions.url ?? '(none)',
      reply.statusCode,
      reply.elapsedTime / 1000,
    )
    request.log.info(
      { req: request, status: reply.statusCode, ms: Math.round(reply.elapsedTime) },
      'answered',
    )
    done()
  })
}
