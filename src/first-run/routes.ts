import type { FastifyInstance, FastifyReply } from 'fastify'
import { keepSession, sessionSecret } from '../account/session-cookies.ts'
import { signIn } from '../account/sign-in.ts'
import { WEEKDAYS } from '../business/form.ts'
import { timeZones } from '../business/time-zones.ts'
import type { Deps } from '../deps.ts'
import { starterFinishes } from '../estimate/starter/starter.ts'
import { starterExtras } from '../estimate/starter/starter-extras.ts'
import { NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { type Errors, FormFields, tickedValues, typedFields } from '../http/form-fields.ts'
import { FEW_A_MINUTE } from '../http/rate-limits.ts'
import { fillPrices, stillInvented } from './filling.ts'
import { opensSetUp, setUpBusiness } from './first-run.ts'
import { readSetUp, readUnits } from './form.ts'

declare module '../http/render.ts' {
  interface Views {
    'first-run/set-up': {
      values: Record<string, string>
      workingDays: string[]
      finishes: { slug: string; name: { en: string } }[]
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
    { config: { access: 'link', englishOnly: true } },
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
      if (typedFields(request.body).do === 'fill') return showFilled(reply, request.body)
      const reading = readSetUp(request.body)
      if (!reading.ok) return showSetUp(reply, { ...typedAgain(request.body), errors: reading.errors }, 422)
      await setUpBusiness(deps, reading.values)
      const { email, password } = reading.values.owner
      const signedIn = await signIn(deps, email, password, undefined, sessionSecret(request, deps))
      if (signedIn.ok) keepSession(reply, deps, signedIn.secret, email)
      say(reply, 'You are set up, and the first page is open to homeowners. What they send appears here.')
      return reply.redirect('/queue', 303)
    },
  )
}

/** The same form with its empty prices filled; nothing is saved, and nothing else is read. */
function showFilled(reply: FastifyReply, body: unknown) {
  const { values, workingDays } = typedAgain(body)
  const fields = new FormFields(body)
  const units = readUnits(fields)
  if (fields.errors.units) return showSetUp(reply, { values, workingDays, errors: fields.errors }, 422)
  const filled = fillPrices(values, units)
  return showSetUp(reply, { values: filled.values, workingDays, filled: filled.count })
}

function typedAgain(body: unknown) {
  const { 'owner.password': _never, ...values } = typedFields(body)
  return { values, workingDays: tickedValues(body, 'workingDays') }
}

interface Shown {
  values: Record<string, string>
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
