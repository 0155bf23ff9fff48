import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { DayGone } from '../bookings/refusals.ts'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { worksInOffice } from '../http/roles.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t, translator } from '../language/catalogue.ts'
import { requireRequest } from '../requests/queries.ts'
import { type Closed, closeJob } from './close-job.ts'
import { closeWith } from './close-with.ts'
import { type TroublesView, viewTroubles } from './troubles-view.ts'
import { type ClosingView, saidOf, viewClosing } from './view.ts'
import { readWent } from './went-form.ts'
import { viewWent, type WentPage } from './went-page.ts'

declare module '../http/render.ts' {
  interface Views {
    'closing/show': {
      number: string
      customer: string
      street: string
      closing: ClosingView
      went: WentPage | null
      troubles: TroublesView
      /** Whether somebody typed how it went, and it's shown again. */
      isTold: boolean
      values: Typed
    }
  }
}

type OfJob = FastifyRequest<{ Params: { number: string } }>

/** What was typed and refused, and with which status it is shown again. */
export interface Refused {
  errors: Errors
  typed?: Typed
  status?: number
}

/** How a job went: told by whoever was there, helpers too, without any money but what they paid themselves. */
export function closingRoutes(app: FastifyInstance, deps: Deps): void {
  const staff = { config: { access: 'staff' as const } }

  app.get('/days/jobs/:number/close', staff, (request: OfJob, reply) => showClosing(deps, request, reply))

  app.post('/days/jobs/:number/close', staff, async (request: OfJob, reply) => {
    const { id, number } = await requireRequest(deps.db, request.params.number)
    const fields = new FormFields(request.body)
    const act = () => closeJob(deps, requireAccount(request).id, id, fields.carried('version'))
    const refused = await orFault(request, async () => sayClosed(deps, request, reply, number, await act()))
    if (refused) return showClosing(deps, request, reply, refused)
    return reply.redirect(backTo(request, fields, number), 303)
  })

  app.post('/days/jobs/:number/went', staff, async (request: OfJob, reply) => {
    const wanted = await requireRequest(deps.db, request.params.number)
    const { id, number } = wanted
    const language = languageOf(request)
    const account = requireAccount(request)
    const business = await requireBusiness(deps.db)
    const form = await viewWent(deps, business, wanted, account, language)
    if (!form) throw new Conflict('error.stage', { number })
    const fields = new FormFields(request.body)
    const reading = readWent(fields, form.asked, translator(language))
    if (!reading.ok) return showClosing(deps, request, reply, reading)
    const version = fields.carried('version')
    const refused = await orFault(request, async () =>
      sayClosed(deps, request, reply, number, await closeWith(deps, account.id, id, version, reading.values)),
    )
    if (refused) return showClosing(deps, request, reply, { ...refused, typed: fields.typed })
    return reply.redirect(`/days/jobs/${number}/close`, 303)
  })
}

async function sayClosed(
  deps: Deps,
  request: OfJob,
  reply: FastifyReply,
  number: string,
  { isNew, closing }: Closed,
): Promise<void> {
  const language = languageOf(request)
  const said = saidOf(closing, await requireBusiness(deps.db), language)
  if (!isNew) say(reply, t(language, 'closing.was-closed', { number, ...said }))
  else if (closing.as_planned) say(reply, t(language, 'closing.closed', { number }))
  else say(reply, t(language, 'closing.saved', said))
}

/** What is said beside the form of what no longer fits; a page that isn't there is let through. */
async function orFault(request: OfJob, act: () => Promise<void>): Promise<Refused | null> {
  try {
    await act()
    return null
  } catch (error) {
    if (!(error instanceof Conflict) || error.key === 'error.stage') throw error
    const language = languageOf(request)
    if (error instanceof DayGone)
      return { errors: { restDay: t(language, 'closing.rest-full') }, status: 422 }
    return { errors: { '': t(language, error.key, error.params) }, status: 409 }
  }
}

function backTo(request: OfJob, fields: FormFields, number: string): string {
  return worksInOffice(requireAccount(request)) && fields.text('from') === 'request'
    ? `/queue/${number}`
    : '/days'
}

/** The page of how a job went, with what was typed and refused. */
export async function showClosing(deps: Deps, request: OfJob, reply: FastifyReply, refused?: Refused) {
  const wanted = await requireRequest(deps.db, request.params.number)
  const business = await requireBusiness(deps.db)
  const language = languageOf(request)
  const closing = await viewClosing(deps.db, business, wanted, deps.now(), language)
  if (!closing) throw new NotFound()
  const form = await viewWent(deps, business, wanted, requireAccount(request), language)
  const { number, customer_name: customer, street } = wanted
  const page = {
    ...{ number, customer, street, closing },
    went: closing.mayTell && form ? form.page : null,
    troubles: await viewTroubles(deps, business, wanted, language),
    isTold: refused?.typed !== undefined,
    values: { ...form?.values, ...refused?.typed },
    errors: refused?.errors ?? {},
  }
  return reply.page('closing/show', page, refused ? (refused.status ?? 422) : 200)
}
