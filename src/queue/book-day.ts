import type { FastifyInstance } from 'fastify'
import { bookDay } from '../bookings/booking.ts'
import { DayGone } from '../bookings/refusals.ts'
import { startInWords, startOf } from '../days/start.ts'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { requireRequestId } from '../requests/queries.ts'
import { readBookedDay } from './form.ts'
import { showRequest } from './request-page.ts'

/** Booking the day for a homeowner who accepted without one and was called. */
export function bookDayRoute(app: FastifyInstance, deps: Deps): void {
  app.post<{ Params: { number: string } }>(
    '/queue/:number/day',
    { config: { access: 'office' } },
    async (request, reply) => {
      const { number } = request.params
      const id = await requireRequestId(deps.db, number)
      const reading = readBookedDay(new FormFields(request.body))
      if (!reading.ok) return showRequest(deps, reply, number, reading)
      const { day } = reading.values
      try {
        await bookDay(deps, id, day, { kind: 'staff', accountId: requireAccount(request).id })
      } catch (error) {
        if (!(error instanceof DayGone)) throw error
        const gone = 'That day is full now. Choose another.'
        return showRequest(deps, reply, number, { errors: { day: gone } })
      }
      say(reply, `${startInWords(startOf(day), 'en')} is booked for ${number}.`)
      return reply.redirect(`/queue/${number}`, 303)
    },
  )
}
