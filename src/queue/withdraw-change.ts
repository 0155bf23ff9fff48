import type { FastifyInstance } from 'fastify'
import { withdrawChange } from '../bookings/withdraw-change.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { requireRequestId } from '../requests/queries.ts'
import { showRequest } from './request-page.ts'

/** Taking a change back that waits for the customer. */
export function withdrawChangeRoute(app: FastifyInstance, deps: Deps): void {
  app.post<{ Params: { number: string } }>(
    '/queue/:number/change/withdraw',
    { config: { access: 'office' } },
    async (request, reply) => {
      const { number } = request.params
      const revision = new FormFields(request.body).carried('revision')
      const id = await requireRequestId(deps.db, number)
      try {
        await withdrawChange(deps, requireAccount(request).id, id, revision)
      } catch (error) {
        if (!(error instanceof Conflict)) throw error
        return showRequest(deps, reply, number, { errors: { '': t('en', error.key, error.params) } })
      }
      say(reply, 'The change is taken back. The work goes by what they accepted.')
      return reply.redirect(`/queue/${number}`, 303)
    },
  )
}
