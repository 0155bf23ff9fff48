import type { FastifyInstance } from 'fastify'
import { reopenJob } from '../closing/reopen.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { requireRequestId } from '../requests/queries.ts'
import { showRequest } from './request-page.ts'

/** Opening a job again that was closed by mistake. */
export function reopenRoute(app: FastifyInstance, deps: Deps): void {
  app.post<{ Params: { number: string } }>(
    '/queue/:number/reopen',
    { config: { access: 'office' } },
    async (request, reply) => {
      const { number } = request.params
      const id = await requireRequestId(deps.db, number)
      const version = new FormFields(request.body).carried('version')
      try {
        await reopenJob(deps, requireAccount(request).id, id, version)
      } catch (error) {
        if (!(error instanceof Conflict) || error.key === 'error.stage') throw error
        return showRequest(deps, reply, number, { errors: { '': t('en', error.key, error.params) } })
      }
      say(reply, `${number} is open again.`)
      return reply.redirect(`/queue/${number}`, 303)
    },
  )
}
