import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { t } from '../language/catalogue.ts'
import { shortDate } from '../language/dates-in-words.ts'
import { figureInWords } from '../language/money-in-words.ts'
import { dayOf } from '../lib/dates.ts'
import { CrewTooSmall, findCrew, findCrewOff, keepCrew, takeOff, takeOffBack } from './crew.ts'
import { MOST_CREW, readCrew, readCrewOff } from './crew-form.ts'

interface CrewPage {
  /** How many people are asked for, the last one new. */
  count: number
  crew: { value: string; label: string }[]
  off: { id: number; words: string }[]
  weekdays: string[]
  values: Typed
}

declare module '../http/render.ts' {
  interface Views {
    'days/crew': CrewPage
  }
}

const OWNER = { config: { access: 'owner' } } as const
const PAGE = '/settings/days/crew'
const WEEKDAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun']
/** How many days are named where there are more. */
const NAMED = 6

type Again = { typed: Typed; errors: Errors }

/** Who works, their hours and their days off: the room of a day follows from them. */
export function crewRoutes(app: FastifyInstance, deps: Deps): void {
  app.get(PAGE, OWNER, (_request, reply) => show(deps, reply))
  app.get(`${PAGE}/off`, OWNER, (_request, reply) => reply.redirect(PAGE, 303))

  app.post(PAGE, OWNER, async (request, reply) => {
    const fields = new FormFields(request.body)
    const reading = readCrew(fields)
    if (!reading.ok) return show(deps, reply, reading)
    const { crew, out } = reading.values
    return orTell(reply, 'crew.0.name', fields.typed, () => keepCrew(deps, crew, out))
  })

  app.post(`${PAGE}/off`, OWNER, async (request, reply) => {
    const fields = new FormFields(request.body)
    const { time_zone } = await requireBusiness(deps.db)
    const ids = (await findCrew(deps.db)).map(({ id }) => id)
    const reading = readCrewOff(fields, dayOf(deps.now(), time_zone), ids)
    if (!reading.ok) return show(deps, reply, reading)
    const { id, from, to } = reading.values
    return orTell(reply, 'away.from', fields.typed, () => takeOff(deps, id, from, to))
  })

  app.post(
    `${PAGE}/off/:id/back`,
    OWNER,
    async (request: FastifyRequest<{ Params: { id: string } }>, reply) => {
      const id = /^\d{1,9}$/.test(request.params.id) ? Number(request.params.id) : 0
      return orTell(reply, 'away.from', {}, () => takeOffBack(deps, id))
    },
  )

  async function orTell(reply: FastifyReply, field: string, typed: Typed, act: () => Promise<void>) {
    try {
      await act()
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      const fault = error instanceof CrewTooSmall ? tooSmallInWords(error.days) : t('en', error.key)
      return show(deps, reply, { typed, errors: { [field]: fault } }, 409)
    }
    say(reply, 'Saved. The room of coming days follows.')
    return reply.redirect(PAGE, 303)
  }
}

function tooSmallInWords(days: string[]): string {
  const named = days.slice(0, NAMED).map(day => shortDate(day))
  const more = days.length > NAMED ? `, and ${days.length - NAMED} more days` : ''
  return `More work is booked than would fit on ${named.join('; ')}${more}. Move it first, or give the day its hours by hand on Days.`
}

async function show(deps: Deps, reply: FastifyReply, again?: Again, status = 422) {
  const { time_zone } = await requireBusiness(deps.db)
  const crew = await findCrew(deps.db)
  const off = await findCrewOff(deps.db, dayOf(deps.now(), time_zone))
  const stored: Typed = {}
  for (const [index, { id, name, hours }] of crew.entries()) {
    stored[`crew.${index}.id`] = String(id)
    stored[`crew.${index}.name`] = name
    for (const [weekday, one] of hours.entries())
      stored[`crew.${index}.h${weekday}`] = figureInWords(one, 'en')
  }
  const typedRows = Object.keys(again?.typed ?? {}).filter(name => /^crew\.\d+\.name$/.test(name)).length
  const page = {
    count: Math.min(MOST_CREW, typedRows || crew.length + 1),
    crew: crew.map(({ id, name }) => ({ value: String(id), label: name })),
    off: off.map(({ id, name, from_day, to_day }) => ({
      id,
      words: `${name}: ${shortDate(from_day)}${to_day === from_day ? '' : ` to ${shortDate(to_day)}`}`,
    })),
    weekdays: WEEKDAYS,
    values: { ...(typedRows ? {} : stored), ...again?.typed },
    errors: again?.errors ?? {},
  }
  return reply.page('days/crew', page, again ? status : 200)
}
