import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import { readDay, readRoom } from '../days/form.ts'
import { RoomTaken, setRoom } from '../days/work-day.ts'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { worksInOffice } from '../http/roles.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t, translator } from '../language/catalogue.ts'
import { dayInWords } from '../language/dates-in-words.ts'
import { figureInWords } from '../language/money-in-words.ts'
import { orderingInWords } from '../orders/page.ts'
import { type DaysPage, viewDaysPage } from './days-page.ts'
import { rainRoutes } from './rain-routes.ts'

declare module '../http/render.ts' {
  interface Views {
    'days/show': { strip: DaysPage; ordering: string; values: Typed }
  }
}

type DayRequest = FastifyRequest<{ Params: { day: string } }>

export function daysRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/days', { config: { access: 'staff' } }, showDaysPage)
  app.post('/days/:day/room', { config: { access: 'office' } }, changeRoom)
  rainRoutes(app, deps)

  async function showDaysPage(request: FastifyRequest, reply: FastifyReply) {
    return showDays(request, reply, {})
  }

  async function changeRoom(request: DayRequest, reply: FastifyReply) {
    const day = readDay(request.params.day)
    if (!day) throw new NotFound()
    const language = languageOf(request)
    const business = await requireBusiness(deps.db)
    const fields = new FormFields(request.body)
    const reading = readRoom(fields, day, translator(language))
    const refuse = (status: number, errors: Errors) =>
      showDays(request, reply, { from: day, values: fields.typed, errors, status })
    if (!reading.ok) return refuse(422, reading.errors)
    const { hours, isMakeup } = reading.values
    const dayWords = dayInWords(day, language)
    try {
      await setRoom(deps, business, day, hours, isMakeup)
    } catch (error) {
      if (error instanceof Conflict && !(error instanceof RoomTaken))
        return refuse(409, { [`room.${day}`]: t(language, error.key) })
      if (!(error instanceof RoomTaken)) throw error
      const taken = figureInWords(error.taken, language)
      return refuse(409, { [`room.${day}`]: t(language, error.key, { taken, day: dayWords }) })
    }
    const said = Number(hours) === 0 ? 'days.said-closed' : isMakeup ? 'days.said-makeup' : 'days.said-room'
    say(reply, t(language, said, { day: dayWords, hours: figureInWords(hours, language) }))
    return reply.redirect(`/days?from=${day}`, 303)
  }

  async function showDays(
    request: FastifyRequest,
    reply: FastifyReply,
    asked: {
      from?: string
      values?: Typed
      errors?: Errors
      status?: number
    },
  ) {
    const business = await requireBusiness(deps.db)
    const { from } = request.query as Record<string, unknown>
    const strip = await viewDaysPage(deps, business, asked.from ?? readDay(from), languageOf(request))
    const { values = {}, errors = {} } = asked
    const ordering = worksInOffice(requireAccount(request)) ? await orderingInWords(deps, business) : ''
    return reply.page('days/show', { strip, ordering, values, errors }, asked.status)
  }
}
