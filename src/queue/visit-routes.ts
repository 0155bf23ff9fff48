import type { FastifyInstance } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors } from '../http/posted.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { momentInWords } from '../language/dates-in-words.ts'
import { requireRequestId } from '../requests/queries.ts'
import { Clash } from '../visits/clash.ts'
import { offerTimes } from '../visits/pick-time.ts'
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
    const { startsAt, ...shown } = reading.values
    const id = await requireRequestId(deps.db, number)
    try {
      await setVisit(deps, requireAccount(request).id, id, startsAt, shown)
    } catch (error) {
      const errors = errorsOf(error)
      if (!errors) throw error
      return showRequest(deps, reply, number, { typed: fields.typed, errors })
    }
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

function errorsOf(error: unknown): Errors | undefined {
  if (error instanceof Clash) return { 'visit.anyway': error.words }
  if (error instanceof Conflict && error.key === 'visits.changed') return { '': t('en', error.key) }
  return undefined
}
