import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { confirmDay, declineDay } from '../bookings/day-asked.ts'
import { DayGone } from '../bookings/refusals.ts'
import { readStart, startInWords, startOf } from '../days/start.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { requireRequestId } from '../requests/queries.ts'
import { readAsked } from './form.ts'
import { showRequest } from './request-page.ts'

const OFFICE = { config: { access: 'office' } } as const

type OfRequest = FastifyRequest<{ Params: { number: string } }>

/** Answering a homeowner who asks for a day. */
export function dayAskedRoutes(app: FastifyInstance, deps: Deps): void {
  app.post('/queue/:number/day/confirm', OFFICE, async (request: OfRequest, reply) => {
    const { number } = request.params
    const id = await requireRequestId(deps.db, number)
    const day = readStart(new FormFields(request.body).text('asked')) ?? ''
    const { id: accountId } = requireAccount(request)
    return orRefuse(number, reply, {}, async () => {
      await confirmDay(deps, accountId, id, day)
      return `${startInWords(startOf(day), 'en')} is booked for ${number}. The homeowner is told.`
    })
  })

  app.post('/queue/:number/day/decline', OFFICE, async (request: OfRequest, reply) => {
    const { number } = request.params
    const id = await requireRequestId(deps.db, number)
    const fields = new FormFields(request.body)
    const reading = readAsked(fields)
    if (!reading.ok) return showRequest(deps, reply, number, reading)
    const { id: accountId } = requireAccount(request)
    return orRefuse(number, reply, fields.typed, async () => {
      await declineDay(deps, accountId, id, reading.values)
      return `${number} is to choose another day. The homeowner is told.`
    })
  })

  async function orRefuse(
    number: string,
    reply: FastifyReply,
    typed: FormFields['typed'],
    act: () => Promise<string>,
  ) {
    try {
      say(reply, await act())
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      const isFull = error instanceof DayGone
      const words = t('en', isFull ? 'moves.day-gone' : error.key, error.params)
      return showRequest(deps, reply, number, { errors: { [isFull ? 'offered' : '']: words }, typed })
    }
    return reply.redirect(`/queue/${number}`, 303)
  }
}
