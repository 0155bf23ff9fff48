import type { FastifyInstance, FastifyRequest } from 'fastify'
import { callOff } from '../bookings/call-off.ts'
import { moveWork } from '../bookings/move.ts'
import { DayGone } from '../bookings/refusals.ts'
import { keepAsSet } from '../bookings/unsuited.ts'
import { requireBusiness } from '../business/queries.ts'
import { startInWords, startOf } from '../days/start.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { dayOf } from '../lib/dates.ts'
import { findBroken } from '../orders/breaks.ts'
import { requireRequestId } from '../requests/queries.ts'
import { readMove, readWhyCanceled } from './form.ts'
import { showRequest } from './request-page.ts'

const OFFICE = { config: { access: 'office' } } as const

type OfRequest = FastifyRequest<{ Params: { number: string } }>

/** Moving booked work to another day, and canceling a request, for the staff. */
export function moveRoutes(app: FastifyInstance, deps: Deps): void {
  app.post('/queue/:number/move', OFFICE, async (request: OfRequest, reply) => {
    const { number } = request.params
    const id = await requireRequestId(deps.db, number)
    const reading = readMove(new FormFields(request.body))
    if (!reading.ok) return showRequest(deps, reply, number, reading)
    try {
      await moveWork(deps, id, reading.values, doerOf(request))
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      const key = error instanceof DayGone ? 'moves.day-gone' : error.key
      return showRequest(deps, reply, number, { errors: { newDay: t('en', key, error.params) } })
    }
    const broken = (await findBroken(deps, [id])).map(order => `Call about an order: ${order}`)
    const to = startInWords(startOf(reading.values.to), 'en')
    say(reply, [`${number} is moved to ${to}. The homeowner is told.`, ...broken].join(' '))
    return reply.redirect(`/queue/${number}`, 303)
  })

  app.post('/queue/:number/as-set', OFFICE, async (request: OfRequest, reply) => {
    const { number } = request.params
    await keepAsSet(deps, requireAccount(request).id, await requireRequestId(deps.db, number))
    say(reply, 'It stays as it was set.')
    return reply.redirect(`/queue/${number}`, 303)
  })

  app.post('/queue/:number/cancel', OFFICE, async (request: OfRequest, reply) => {
    const { number } = request.params
    const id = await requireRequestId(deps.db, number)
    const { time_zone } = await requireBusiness(deps.db)
    const fields = new FormFields(request.body)
    const reading = readWhyCanceled(fields, dayOf(deps.now(), time_zone))
    if (!reading.ok) return showRequest(deps, reply, number, reading)
    const { reason, settling } = reading.values
    try {
      await callOff(deps, id, reason, doerOf(request), settling)
    } catch (error) {
      if (!(error instanceof Conflict) || !settling) throw error
      const errors = { fate: t('en', error.key, error.params) }
      return showRequest(deps, reply, number, { errors, typed: fields.typed })
    }
    say(reply, `Request ${number} is canceled. The homeowner is told.`)
    return reply.redirect(`/queue/${number}`, 303)
  })
}

function doerOf(request: OfRequest) {
  return { kind: 'staff', accountId: requireAccount(request).id } as const
}
