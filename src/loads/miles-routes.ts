import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t, translator } from '../language/catalogue.ts'
import { dayOf } from '../lib/dates.ts'
import type { Again } from './form.ts'
import { noteMiles, undoMiles } from './miles.ts'
import { readMiles } from './miles-form.ts'

const STAFF = { config: { access: 'staff' } } as const

type OfDay = FastifyRequest<{ Params: { day: string } }>
type OfMiles = FastifyRequest<{ Params: { day: string; miles: string } }>

/** What the load list's other routes know how to do. */
interface LoadPageDoes {
  dayOfRequest(request: OfDay): string
  idOf(text: string): number
  show(request: OfDay, reply: FastifyReply, again: Again): Promise<FastifyReply>
}

/** How far somebody drove on a day: on its load list, folded away. */
export function milesRoutes(app: FastifyInstance, deps: Deps, page: LoadPageDoes): void {
  app.post('/loads/:day/miles', STAFF, async (request: OfDay, reply) => {
    const day = page.dayOfRequest(request)
    const language = languageOf(request)
    const business = await requireBusiness(deps.db)
    const today = dayOf(deps.now(), business.time_zone)
    const unit = business.units === 'us' ? 'mi' : 'km'
    const reading = readMiles(new FormFields(request.body), { day, today, unit }, translator(language))
    if (!reading.ok)
      return page.show(request, reply, { values: reading.typed, errors: reading.errors, status: 422 })
    await noteMiles(deps, requireAccount(request).id, reading.values)
    say(reply, t(language, 'miles.said'))
    return reply.redirect(`/loads/${day}#miles`, 303)
  })

  app.post('/loads/:day/miles/:miles/undo', STAFF, async (request: OfMiles, reply) => {
    const day = page.dayOfRequest(request)
    await undoMiles(deps, requireAccount(request), day, page.idOf(request.params.miles))
    say(reply, t(languageOf(request), 'loads.said-undone'))
    return reply.redirect(`/loads/${day}#miles`, 303)
  })
}
