import type { FastifyInstance, FastifyRequest } from 'fastify'
import { DayGone } from '../bookings/refusals.ts'
import { sayDay } from '../bookings/week.ts'
import { readDay } from '../days/form.ts'
import { mondayIn } from '../days/week.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { dayInWords } from '../language/dates-in-words.ts'
import { requireRequestId } from '../requests/queries.ts'
import { showRequest } from './request-page.ts'

type OfRequest = FastifyRequest<{ Params: { number: string } }>

/** Saying the day of a week that a homeowner chose, on the request or on Days. */
export function weekRoutes(app: FastifyInstance, deps: Deps): void {
  app.post('/queue/:number/week', { config: { access: 'office' } }, async (request: OfRequest, reply) => {
    const { number } = request.params
    const id = await requireRequestId(deps.db, number)
    const fields = new FormFields(request.body)
    const day = readDay(fields.text('weekDay'))
    const week = fields.text('week')
    if (!day || !mondayIn(week))
      return showRequest(deps, reply, number, { errors: { weekDay: 'Choose a day.' } })
    try {
      await sayDay(deps, requireAccount(request).id, id, { week, day })
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      const isFull = error instanceof DayGone
      const words = t('en', isFull ? 'moves.day-gone' : error.key, error.params)
      return showRequest(deps, reply, number, { errors: { [isFull ? 'weekDay' : '']: words } })
    }
    say(reply, `${dayInWords(day, 'en')} is booked for ${number}. The homeowner is told.`)
    return reply.redirect(fields.text('back') === 'days' ? '/days' : `/queue/${number}`, 303)
  })
}
