import { randomUUID } from 'node:crypto'
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import type { RainChoice } from '../bookings/plan-rain.ts'
import { moveForRain, RainClash } from '../bookings/rain.ts'
import { readDay } from '../days/form.ts'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors } from '../http/posted.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { dayInWords } from '../language/dates-in-words.ts'
import { type RainPage, viewRain } from './rain-page.ts'

const OFFICE = { config: { access: 'office' } } as const
const KEY = /^[\da-f]{8}(-[\da-f]{4}){3}-[\da-f]{12}$/

declare module '../http/render.ts' {
  interface Views {
    'days/rain': RainPage
  }
}

type DayRequest = FastifyRequest<{ Params: { day: string } }>

/** Moving all the work of a day for rain: chosen job by job on one page, and sent in one go. */
export function rainRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/days/:day/rain', OFFICE, async (request: DayRequest, reply) =>
    show(reply, dayOfRequest(request), randomUUID()),
  )

  app.post('/days/:day/rain', OFFICE, async (request: DayRequest, reply) => {
    const day = dayOfRequest(request)
    const fields = new FormFields(request.body)
    const { choices, errors } = readChoices(fields)
    const key = fields.text('key')
    const again = (faults: Errors, status: number) =>
      show(reply, day, randomUUID(), { choices, faults, status })
    if (!KEY.test(key)) return again({}, 422)
    if (Object.keys(errors).length > 0) return again(errors, 422)
    try {
      await moveForRain(deps, requireAccount(request).id, { key, day, choices })
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      const sentence = t('en', error.key, error.params)
      const clashing = error instanceof RainClash ? error.bookingIds : []
      const beside = Object.fromEntries(clashing.map(id => [`to.${id}`, sentence]))
      return again(clashing.length > 0 ? beside : { '': sentence }, 409)
    }
    const moved = choices.filter(({ to }) => to !== null).length
    const jobs = moved === 1 ? '1 job is' : `${moved} jobs are`
    say(reply, `${jobs} moved from ${dayInWords(day, 'en')}, and the homeowners are told.`)
    return reply.redirect(`/days?from=${day}`, 303)
  })

  async function show(
    reply: FastifyReply,
    day: string,
    key: string,
    again: { choices?: RainChoice[]; faults?: Errors; status?: number } = {},
  ) {
    const page = await viewRain(deps, day, key, again.choices)
    return reply.page('days/rain', { ...page, errors: again.faults ?? {} }, again.status)
  }
}

function dayOfRequest(request: DayRequest): string {
  const day = readDay(request.params.day)
  if (!day) throw new NotFound()
  return day
}

/** Stands for a job that is left where it is. */
const STAYS = 'stays'

/** Reads where each job goes, from the fields `to.<booking>`. */
function readChoices(fields: FormFields): { choices: RainChoice[]; errors: Errors } {
  const errors: Errors = {}
  const to = fields.group('to')
  const choices = to.names().flatMap((name): RainChoice[] => {
    const bookingId = Number(name)
    if (!Number.isSafeInteger(bookingId) || bookingId < 1) return []
    const typed = to.text(name)
    const day = typed === STAYS ? null : readDay(typed)
    if (day === undefined) errors[`to.${bookingId}`] = 'Choose a day, or leave it on this one.'
    return [{ bookingId, to: day ?? null }]
  })
  return { choices, errors }
}
