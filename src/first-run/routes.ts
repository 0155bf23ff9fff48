import type { FastifyInstance, FastifyReply } from 'fastify'
import { browserHere, cameFrom, keepSession } from '../account/session-cookies.ts'
import { signIn } from '../account/sign-in.ts'
import { WEEKDAYS } from '../business/form.ts'
import { timeZones } from '../business/time-zones.ts'
import type { Deps } from '../deps.ts'
import { type StarterFinish, starterFinishes } from '../estimate/starter/starter.ts'
import { starterExtras } from '../estimate/starter/starter-extras.ts'
import { NotFound } from '../http/errors.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { FEW_A_MINUTE, MANY_A_MINUTE } from '../http/rate-limits.ts'
import { countNotLookedAt } from '../rates/looked-at.ts'
import { fillPrices, stillInvented } from './filling.ts'
import { opensSetUp, setUpBusiness } from './first-run.ts'
import { readSetUp, readUnits } from './form.ts'

declare module '../http/render.ts' {
  interface Views {
    'first-run/welcome': { address: string; notLookedAt: number }
    'first-run/set-up': {
      values: Record<string, string>
      workingDays: string[]
      finishes: Pick<StarterFinish, 'slug' | 'name' | 'saleUnit'>[]
      extras: { slug: string; name: { en: string }; per: string }[]
      timeZones: { value: string; label: string }[]
      weekdays: string[]
      /** The prices that are invented, by the name of their field or pair. */
      invented: string[]
      /** How many fields were filled just now; null where that wasn't asked for. */
      filled: number | null
    }
  }
}

interface Link {
  Params: { token: string }
}

const START = {
  units: 'us',
  currency: 'USD',
  'business.quoteHoldsDays': '30',
  'business.answerWithinDays': '2',
}

export function setUpRoutes(app: FastifyInstance, deps: Deps): void {
  app.get<Link>(
    '/set-up/:token',
    { config: { access: 'link', englishOnly: true, ...MANY_A_MINUTE } },
    async (request, reply) => {
      if (!(await opensSetUp(deps, request.params.token))) throw new NotFound()
      return showSetUp(reply, { values: START, workingDays: ['1', '2', '3', '4', '5'] })
    },
  )

  app.post<Link>(
    '/set-up/:token',
    { config: { access: 'link', englishOnly: true, ...FEW_A_MINUTE } },
    async (request, reply) => {
      if (!(await opensSetUp(deps, request.params.token))) throw new NotFound()
      const fields = new FormFields(request.body)
      if (fields.text('do') === 'fill') return showFilled(reply, fields)
      const reading = await readSetUp(fields)
      const workingDays = fields.ticks('workingDays')
      if (!reading.ok)
        return showSetUp(reply, { values: reading.typed, workingDays, errors: reading.errors }, 422)
      await setUpBusiness(deps, reading.values)
      const { email, password } = reading.values.owner
      const signedIn = await signIn(deps, email, password, cameFrom(request), browserHere(request, deps))
      if (signedIn.ok) keepSession(reply, deps, signedIn.session, email)
      return reply.redirect('/welcome', 303)
    },
  )
}

/** The last page of the first run: what to do next. It may be looked at again. */
export function welcomeRoute(app: FastifyInstance, deps: Deps): void {
  app.get('/welcome', { config: { access: 'owner' } }, async (_request, reply) =>
    reply.page('first-run/welcome', {
      address: `${deps.config.publicUrl}/`,
      notLookedAt: await countNotLookedAt(deps.db, deps.now()),
    }),
  )
}

/** The same form with its empty prices filled; nothing is saved, and nothing else is read. */
function showFilled(reply: FastifyReply, fields: FormFields) {
  fields.secret('owner.password')
  const workingDays = fields.ticks('workingDays')
  const reading = fields.reading(readUnits(fields))
  if (!reading.ok)
    return showSetUp(reply, { values: reading.typed, workingDays, errors: reading.errors }, 422)
  const filled = fillPrices(fields.typed, reading.values)
  return showSetUp(reply, { values: filled.values, workingDays, filled: filled.count })
}

interface Shown {
  values: Typed
  workingDays: string[]
  errors?: Errors
  filled?: number
}

function showSetUp(reply: FastifyReply, { filled, ...data }: Shown, status = 200) {
  const units = data.values.units === 'metric' ? 'metric' : 'us'
  return reply.page(
    'first-run/set-up',
    {
      ...data,
      finishes: starterFinishes(units),
      extras: starterExtras(units),
      timeZones: timeZones(),
      weekdays: WEEKDAYS,
      invented: stillInvented(data.values),
      filled: filled ?? null,
    },
    status,
  )
}
