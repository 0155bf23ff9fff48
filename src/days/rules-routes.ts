import type { FastifyInstance, FastifyReply } from 'fastify'
import { type Business, requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { datedDay, shortDate } from '../language/dates-in-words.ts'
import { addDays, dayOf } from '../lib/dates.ts'
import { keepHolidays, takeDaysOff, WorkOnDaysOff } from './days-off.ts'
import { daysOff, type Holiday, holidaysOf } from './holidays.ts'
import { changeDayRules, readDayRules, readDaysOff, rulesAsFields } from './rules.ts'

interface RulesPage {
  holidays: { key: string; label: string; kept: boolean }[]
  values: Typed
}

declare module '../http/render.ts' {
  interface Views {
    'days/rules': RulesPage
  }
}

const OWNER = { config: { access: 'owner' } } as const
const PAGE = '/settings/days'
/** The rarest holiday comes every six years. */
const YEARS_LOOKED = 7

/** How days are chosen and moved, and which are off, as the owner wants it. */
export function dayRulesRoutes(app: FastifyInstance, deps: Deps): void {
  app.get(PAGE, OWNER, (_request, reply) => show(deps, reply))

  app.post(PAGE, OWNER, async (request, reply) => {
    const reading = readDayRules(new FormFields(request.body))
    if (!reading.ok) return show(deps, reply, reading)
    await changeDayRules(deps, reading.values)
    say(reply, 'Saved.')
    return reply.redirect(PAGE, 303)
  })

  for (const part of ['holidays', 'off'])
    app.get(`${PAGE}/${part}`, OWNER, (_request, reply) => reply.redirect(PAGE, 303))

  app.post(`${PAGE}/holidays`, OWNER, async (request, reply) => {
    const keys = new FormFields(request.body).ticks('holidays')
    return orTellOfWork(reply, 'holidays', {}, () => keepHolidays(deps, keys))
  })

  app.post(`${PAGE}/off`, OWNER, async (request, reply) => {
    const business = await requireBusiness(deps.db)
    const reading = readDaysOff(new FormFields(request.body), dayOf(deps.now(), business.time_zone))
    if (!reading.ok) return show(deps, reply, reading)
    const { values } = reading
    const typed = { 'off.from': values.from, 'off.to': values.to, 'off.why': values.why }
    return orTellOfWork(reply, 'off.from', typed, () => takeDaysOff(deps, business, values))
  })

  async function orTellOfWork(reply: FastifyReply, field: string, typed: Typed, act: () => Promise<void>) {
    try {
      await act()
    } catch (error) {
      if (!(error instanceof WorkOnDaysOff)) throw error
      const days = error.days.map(day => shortDate(day)).join('; ')
      const fault = `Work or a visit is set for ${days || 'one of these days'}. Move it first.`
      return show(deps, reply, { typed, errors: { [field]: fault } }, 409)
    }
    say(reply, 'Saved. Homeowners aren’t offered those days.')
    return reply.redirect(PAGE, 303)
  }
}

async function show(deps: Deps, reply: FastifyReply, again?: { typed: Typed; errors: Errors }, status = 422) {
  const business = await requireBusiness(deps.db)
  const values = { ...rulesAsFields(business), ...again?.typed }
  if (again && again.typed.noticeDays !== undefined)
    for (const box of ['nearFirst', 'halfDays']) if (!again.typed[box]) delete values[box]
  const page = { holidays: viewHolidays(deps, business), values, errors: again?.errors ?? {} }
  return reply.page('days/rules', page, again ? status : 200)
}

function viewHolidays(deps: Deps, { time_zone, country, working_days, holidays }: Business) {
  const today = dayOf(deps.now(), time_zone)
  const thisYear = Number(today.slice(0, 4))
  const years = Array.from({ length: YEARS_LOOKED }, (_, index) => thisYear + index)
  return holidaysOf(country).map(holiday => {
    const next = years.map(holiday.on).find(day => day !== undefined && day >= today)
    const label = next ? `${holiday.name}, ${nextInWords(holiday, working_days, next, today)}` : holiday.name
    return { key: holiday.key, label, kept: holidays.includes(holiday.key) }
  })
}

function nextInWords(holiday: Holiday, weekdays: number[], next: string, today: string): string {
  if (next > addDays(today, 366)) return datedDay(next)
  const [off] = daysOff(holiday, weekdays, addDays(next, -3), addDays(next, 3))
  return off === undefined || off === next ? shortDate(next) : `${shortDate(next)}; off ${shortDate(off)}`
}
