import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import { MOST_ROOM, readDay, readRoom } from '../days/form.ts'
import { RoomTaken, setRoom } from '../days/work-day.ts'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { languageOf } from '../http/language.ts'
import { t } from '../language/catalogue.ts'
import { dayInWords } from '../language/dates-in-words.ts'
import { figureInWords } from '../language/money-in-words.ts'
import { type DaysPage, viewDaysPage } from './days-page.ts'

declare module '../http/render.ts' {
  interface Views {
    'days/show': { strip: DaysPage; values: Record<string, string> }
  }
}

type DayRequest = FastifyRequest<{ Params: { day: string } }>

export function daysRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/days', { config: { access: 'staff' } }, showDaysPage)
  app.post('/days/:day/room', { config: { access: 'owner' } }, changeRoom)

  async function showDaysPage(request: FastifyRequest, reply: FastifyReply) {
    return showDays(request, reply, {})
  }

  async function changeRoom(request: DayRequest, reply: FastifyReply) {
    const day = readDay(request.params.day)
    if (!day) throw new NotFound()
    const language = languageOf(request)
    const business = await requireBusiness(deps.db)
    const { typed, hours } = readRoom(request.body, day)
    const field = `room.${day}`
    const refuse = (status: number, message: string) =>
      showDays(request, reply, {
        from: day,
        values: { [field]: typed },
        errors: { [field]: message },
        status,
      })
    if (!hours) return refuse(422, t(language, 'days.room-unreadable', { most: MOST_ROOM }))
    const dayWords = dayInWords(day, language)
    try {
      await setRoom(deps, business, day, hours)
    } catch (error) {
      if (!(error instanceof RoomTaken)) throw error
      const taken = figureInWords(error.taken, language)
      return refuse(409, t(language, 'days.room-taken', { taken, day: dayWords }))
    }
    const said = Number(hours) === 0 ? 'days.said-closed' : 'days.said-room'
    say(reply, t(language, said, { day: dayWords, hours: figureInWords(hours, language) }))
    return reply.redirect(`/days?from=${day}`, 303)
  }

  async function showDays(
    request: FastifyRequest,
    reply: FastifyReply,
    asked: {
      from?: string
      values?: Record<string, string>
      errors?: Record<string, string>
      status?: number
    },
  ) {
    const business = await requireBusiness(deps.db)
    const { from } = request.query as Record<string, unknown>
    const strip = await viewDaysPage(deps, business, asked.from ?? readDay(from), languageOf(request))
    const { values = {}, errors = {} } = asked
    return reply.page('days/show', { strip, values, errors }, asked.status)
  }
}
