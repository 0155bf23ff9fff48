import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import type { Errors } from '../http/posted.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { requireRequest } from '../requests/queries.ts'
import { closeJob } from './close-job.ts'
import { type ClosingView, saidOf, viewClosing } from './view.ts'

declare module '../http/render.ts' {
  interface Views {
    'closing/show': { number: string; customer: string; street: string; closing: ClosingView }
  }
}

type OfJob = FastifyRequest<{ Params: { number: string } }>

/** How a job went: told by whoever was there, helpers too, without any money. */
export function closingRoutes(app: FastifyInstance, deps: Deps): void {
  const staff = { config: { access: 'staff' as const } }

  app.get('/days/jobs/:number/close', staff, (request: OfJob, reply) => show(deps, request, reply))

  app.post('/days/jobs/:number/close', staff, async (request: OfJob, reply) => {
    const { id, number } = await requireRequest(deps.db, request.params.number)
    const fields = new FormFields(request.body)
    const language = languageOf(request)
    try {
      const { isNew, closing } = await closeJob(
        deps,
        requireAccount(request).id,
        id,
        fields.carried('version'),
      )
      const said = saidOf(closing, await requireBusiness(deps.db), language)
      const words = isNew
        ? t(language, 'closing.closed', { number })
        : t(language, 'closing.was-closed', { number, ...said })
      say(reply, words)
    } catch (error) {
      if (!(error instanceof Conflict) || error.key === 'error.stage') throw error
      return show(deps, request, reply, t(language, error.key, error.params))
    }
    return reply.redirect(backTo(request, fields, number), 303)
  })
}

function backTo(request: OfJob, fields: FormFields, number: string): string {
  const isOwner = requireAccount(request).role === 'owner'
  return isOwner && fields.text('from') === 'request' ? `/queue/${number}` : '/days'
}

async function show(deps: Deps, request: OfJob, reply: FastifyReply, fault?: string) {
  const wanted = await requireRequest(deps.db, request.params.number)
  const business = await requireBusiness(deps.db)
  const closing = await viewClosing(deps.db, business, wanted, deps.now(), languageOf(request))
  if (!closing) throw new NotFound()
  const { number, customer_name: customer, street } = wanted
  const faults: Errors = fault ? { '': fault } : {}
  const page = { number, customer, street, closing, errors: faults }
  return reply.page('closing/show', page, fault ? 409 : 200)
}
