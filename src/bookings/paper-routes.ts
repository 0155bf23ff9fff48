import type { FastifyInstance } from 'fastify'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { MANY_A_MINUTE } from '../http/rate-limits.ts'
import { findPaper } from '../papers/queries.ts'
import { paperIdOf } from '../papers/routes.ts'
import { sendFile } from '../papers/send-file.ts'
import { openBookingLink } from './page.ts'

/** The papers that a firm asked for, behind the link of its price. */
export function paperRoutes(app: FastifyInstance, deps: Deps): void {
  const reads = { config: { access: 'link' as const, ...MANY_A_MINUTE } }
  app.get<{ Params: { token: string; paper: string } }>(
    '/b/:token/papers/:paper',
    reads,
    async (request, reply) => {
      const link = await openBookingLink(deps, request.params.token)
      const id = paperIdOf(request.params.paper)
      if (!link.papers.some(paper => paper.id === id)) throw new NotFound()
      const paper = await findPaper(deps.db, id)
      return sendFile(reply, paper, paper?.name ?? '')
    },
  )
}
