import type { FastifyInstance, FastifyReply } from 'fastify'
import { changeBusiness } from '../business/change-business.ts'
import { readBusinessForm, WEEKDAYS } from '../business/form.ts'
import { type Business, findBusiness } from '../business/queries.ts'
import { timeZones } from '../business/time-zones.ts'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { t } from '../language/catalogue.ts'
import { COUNTRIES } from '../language/countries.ts'
import { readHelper } from './form.ts'
import { findHelpers } from './queries.ts'
import { addHelper, removeHelper } from './staff.ts'

type Helpers = Awaited<ReturnType<typeof findHelpers>>

declare module '../http/render.ts' {
  interface Views {
    'account/settings': {
      values: Record<string, string>
      workingDays: string[]
      timeZones: { value: string; label: string }[]
      countries: { value: string; label: string }[]
      weekdays: string[]
      helpers: Helpers
    }
  }
}

/** The owner's page of facts about the business and of who helps. */
export function settingsRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/settings', { config: { access: 'owner' } }, (_request, reply) => showSettings(reply, deps, {}))

  app.post('/settings/business', { config: { access: 'owner' } }, async (request, reply) => {
    const fields = new FormFields(request.body)
    const reading = readBusinessForm(fields)
    if (!reading.ok)
      return showSettings(reply, deps, { ...reading, workingDays: fields.ticks('workingDays') })
    await changeBusiness(deps, reading.values)
    say(reply, 'Your business is saved.')
    return reply.redirect('/settings', 303)
  })

  app.post('/settings/helpers', { config: { access: 'owner' } }, async (request, reply) => {
    const fields = new FormFields(request.body)
    const business = await findBusiness(deps.db)
    const reading = readHelper(fields, business?.name ?? '')
    if (!reading.ok) return showSettings(reply, deps, reading)
    try {
      await addHelper(deps, reading.values)
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      const errors = { 'helper.email': t('en', error.key) }
      return showSettings(reply, deps, { typed: fields.typed, errors }, 409)
    }
    say(reply, `${reading.values.name} can sign in now.`)
    return reply.redirect('/settings', 303)
  })

  app.post<{ Params: { id: string } }>(
    '/settings/helpers/:id/remove',
    { config: { access: 'owner' } },
    async (request, reply) => {
      if (!/^\d{1,15}$/.test(request.params.id)) throw new NotFound()
      await removeHelper(deps, Number(request.params.id))
      say(reply, 'The helper is removed and signed out everywhere.')
      return reply.redirect('/settings', 303)
    },
  )
}

interface Shown {
  typed?: Typed
  workingDays?: string[]
  errors?: Errors
}

async function showSettings(
  reply: FastifyReply,
  deps: Deps,
  { typed, workingDays, errors = {} }: Shown,
  status = Object.keys(errors).length > 0 ? 422 : 200,
) {
  const business = await findBusiness(deps.db)
  if (!business) throw new NotFound()
  return reply.page(
    'account/settings',
    {
      values: { ...factsAsFields(business), ...typed },
      workingDays: workingDays ?? business.working_days.map(String),
      timeZones: timeZones(),
      countries: Object.entries(COUNTRIES).map(([value, label]) => ({ value, label })),
      weekdays: WEEKDAYS,
      helpers: await findHelpers(deps.db),
      errors,
    },
    status,
  )
}

function factsAsFields(business: Business): Record<string, string> {
  return {
    'business.name': business.name,
    'business.phone': business.phone,
    'business.email': business.email,
    'business.timeZone': business.time_zone,
    'business.country': business.country,
    'business.crewHoursADay': business.crew_hours_a_day.replace(/\.?0+$/, ''),
    'business.quoteHoldsDays': String(business.quote_holds_days),
    'business.answerWithinDays': String(business.answer_within_days),
  }
}
