import type { FastifyInstance } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { momentInWords } from '../language/dates-in-words.ts'
import { requireRequestId } from '../requests/queries.ts'
import { callOffVisit, leaveVisitOut, setVisit } from '../visits/visit.ts'
import { readVisit } from '../visits/visit-form.ts'
import { showRequest } from './request-page.ts'

const OWNER = { config: { access: 'owner' } } as const

interface OfRequest {
  Params: { number: string }
}

/** Arranging a visit, posted from the page of its request. */
export function visitRoutes(app: FastifyInstance, deps: Deps): void {
  app.post<OfRequest>('/queue/:number/visit', OWNER, async (request, reply) => {
    const { number } = request.params
    const { time_zone: zone } = await requireBusiness(deps.db)
    const reading = readVisit(new FormFields(request.body), zone, deps.now())
    if (!reading.ok) return showRequest(deps, reply, number, reading)
    const { startsAt } = reading.values
    await setVisit(deps, requireAccount(request).id, await requireRequestId(deps.db, number), startsAt)
    say(reply, `The visit is set for ${momentInWords(startsAt.toString(), zone, 'en')}.`)
    return reply.redirect(`/queue/${number}`, 303)
  })

  app.post<OfRequest>('/queue/:number/visit/call-off', OWNER, async (request, reply) => {
    const { number } = request.params
    await callOffVisit(deps, requireAccount(request).id, await requireRequestId(deps.db, number))
    say(reply, 'The visit is canceled. Let the homeowner know.')
    return reply.redirect(`/queue/${number}`, 303)
  })

  app.post<OfRequest>('/queue/:number/visit/leave-out', OWNER, async (request, reply) => {
    const { number } = request.params
    await leaveVisitOut(deps, requireAccount(request).id, await requireRequestId(deps.db, number))
    say(reply, 'No visit: this is the price for the beds as the homeowner described them.')
    return reply.redirect(`/queue/${number}/quote`, 303)
  })
}
