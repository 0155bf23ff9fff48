import type { FastifyInstance } from 'fastify'
import { showAccepted } from '../bookings/show-accepted.ts'
import type { Deps } from '../deps.ts'
import { requireRequestId } from '../requests/queries.ts'

/** What a homeowner accepted, as it was shown then. */
export function acceptedRoute(app: FastifyInstance, deps: Deps): void {
  app.get<{ Params: { number: string } }>(
    '/queue/:number/accepted',
    { config: { access: 'office' } },
    async (request, reply) => {
      const back = `/queue/${request.params.number}`
      const quoteRequestId = await requireRequestId(deps.db, request.params.number)
      const shown = {
        quoteRequestId,
        address: `${back}/accepted`,
        back,
        isStaff: true,
        language: 'en' as const,
      }
      return showAccepted(deps, request, reply, shown)
    },
  )
}
