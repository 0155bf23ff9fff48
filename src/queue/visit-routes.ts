import type { FastifyInstance } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { momentInWords } from '../language/dates-in-words.ts'
import { requireRequestId } from '../requests/queries.ts'
import { findClash, offerTimes } from '../visits/pick-time.ts'
import { callOffVisit, leaveVisitOut, setVisit } from '../visits/visit.ts'
import { readTimes, readVisit } from '../visits/visit-form.ts'
import { showRequest } from './request-page.ts'

const OFFICE = { config: { access: 'office' } } as const

interface OfRequest {
  Params: { number: string }
}

/** Arranging a visit, posted from the page of its request. */
export function visitRoutes(app: FastifyInstance, deps: Deps): void {
  app.post<OfRequest>('/queue/:number/visit', OFFICE, async (request, reply) => {
    const { number } = request.params
    const { time_zone: zone } = await requireBusiness(deps.db)
    const fields = new FormFields(request.body)
    const reading = readVisit(fields, zone, deps.now())
    if (!reading.ok) return showRequest(deps, reply, number, reading)
    const { startsAt, anyway } = reading.values
    const id = await requireRequestId(deps.db, number)
    const clash = anyway ? undefined : await findClash(deps, id, startsAt)
    if (clash) {
      const errors = { 'visit.anyway': clash }
      return showRequest(deps, reply, number, { typed: fields.typed, errors })
    }
    await setVisit(deps, requireAccount(request).id, id, startsAt)
    say(reply, `The visit is set for ${momentInWords(startsAt.toString(), zone, 'en')}.`)
    return reply.redirect(`/queue/${number}`, 303)
  })

  app.post<OfRequest>('/queue/:number/visit/times', OFFICE, async (request, reply) => {
    const { number } = request.params
    const reading = readTimes(new FormFields(request.body), deps.now())
    if (!reading.ok) return showRequest(deps, reply, number, reading)
    const id = await requireRequestId(deps.db, number)
    await offerTimes(deps, requireAccount(request).id, id, reading.values.times)
    say(reply, 'The times are sent. The homeowner picks one on their page.')
    return reply.redirect(`/queue/${number}`, 303)
  })

  app.post<OfRequest>('/queue/:number/visit/call-off', OFFICE, async (request, reply) => {
    const { number } = request.params
    await callOffVisit(deps, requireAccount(request).id, await requireRequestId(deps.db, number))
    say(reply, 'The visit is canceled. Let the homeowner know.')
    return reply.redirect(`/queue/${number}`, 303)
  })

  app.post<OfRequest>('/queue/:number/visit/leave-out', OFFICE, async (request, reply) => {
    const { number } = request.params
    await leaveVisitOut(deps, requireAccount(request).id, await requireRequestId(deps.db, number))
    say(reply, 'No visit: this is the price for the beds as the homeowner described them.')
    return reply.redirect(`/queue/${number}/quote`, 303)
  })
}
