import type { FastifyInstance } from 'fastify'
import { openPrice } from '../bookings/page.ts'
import { sendPricePaper } from '../bookings/price-paper-routes.ts'
import type { Deps } from '../deps.ts'
import type { Typed } from '../http/posted.ts'
import { requireRequestId } from '../requests/queries.ts'

/** The price of a request as a PDF, in English unless it is asked for in Spanish. */
export function pricePaperRoute(app: FastifyInstance, deps: Deps): void {
  app.get<{ Params: { number: string } }>(
    '/queue/:number/price.pdf',
    { config: { access: 'office' } },
    async (request, reply) => {
      const id = await requireRequestId(deps.db, request.params.number)
      // By a name of its own: what is called a language is kept in a cookie, for other pages too.
      const language = (request.query as Typed).in === 'es' ? 'es' : 'en'
      const price = await openPrice(deps, id, `/queue/${request.params.number}`, true)
      return sendPricePaper(deps, request, reply, price, language)
    },
  )
}
