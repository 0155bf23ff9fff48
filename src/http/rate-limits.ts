import rateLimit from '@fastify/rate-limit'
import type { FastifyInstance } from 'fastify'
import { Refusal } from './errors.ts'

/** A ceiling for every address; routes that cost more or guard a secret set their own `config.rateLimit`. */
export async function limitRates(app: FastifyInstance): Promise<void> {
  await app.register(rateLimit, {
    global: true,
    max: 3000,
    timeWindow: '1 minute',
    errorResponseBuilder: () => new Refusal(429, 'error.429'),
    // Who is told to wait is told how long; nobody else needs to hear of it.
    addHeadersOnExceeding: {
      'x-ratelimit-limit': false,
      'x-ratelimit-remaining': false,
      'x-ratelimit-reset': false,
    },
    allowList: request => request.routeOptions.config.access === 'asset',
  })
}

/** For pages behind a link, as many as a person may open. */
export const MANY_A_MINUTE = { rateLimit: { max: 120, timeWindow: '1 minute' } }

/** For what guards a secret or writes on behalf of a stranger. */
export const FEW_A_MINUTE = { rateLimit: { max: 30, timeWindow: '1 minute' } }
