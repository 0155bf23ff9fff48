import type { FastifyInstance } from 'fastify'
import type { Deps } from '../deps.ts'
import type { Check } from './check.ts'
import { checkAll } from './check-all.ts'

declare module '../http/render.ts' {
  interface Views {
    'operations/how-is-it-doing': HowPage
  }
}

interface HowPage {
  /** Those with something to do come first. */
  checks: Check[]
  /** How many requests are held apart as junk. */
  junk: number
}

const ORDER = { wrong: 0, look: 1, good: 2 }

/** The owner's page of what is well and what is not. */
export function howRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/how-is-it-doing', { config: { access: 'owner' } }, async (_request, reply) => {
    const checks = await checkAll(deps)
    const { junk } = await deps.db
      .selectFrom('quote_request')
      .select(eb => eb.fn.countAll<number>().as('junk'))
      .where('junk_at', 'is not', null)
      .executeTakeFirstOrThrow()
    return reply.page('operations/how-is-it-doing', {
      checks: checks.toSorted((a, b) => ORDER[a.is] - ORDER[b.is]),
      junk,
    })
  })
}
