import type { FastifyInstance, FastifyReply } from 'fastify'
import type { Deps } from '../deps.ts'
import { starterFinishes } from '../estimate/starter.ts'
import { starterExtras } from '../estimate/starter-extras.ts'
import { NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FEW_A_MINUTE } from '../http/rate-limits.ts'
import { type Errors, tickedValues, typedFields } from '../rates/form.ts'
import { WEEKDAYS } from './business-form.ts'
import { opensSetUp, setUpBusiness } from './first-run.ts'
import { keepSession, sessionSecret } from './session-cookies.ts'
import { readSetUp } from './set-up-form.ts'
import { signIn } from './sign-in.ts'
import { timeZones } from './time-zones.ts'

declare module '../http/render.ts' {
  interface Views {
    'account/set-up': {
      values: Record<string, string>
      workingDays: string[]
      finishes: { slug: string; name: { en: string } }[]
      extras: { slug: string; name: { en: string }; per: string }[]
      timeZones: { value: string; label: string }[]
      weekdays: string[]
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
      const reading = readSetUp(request.body)
      if (!reading.ok) {
        const { 'owner.password': _never, ...values } = typedFields(request.body)
        const workingDays = tickedValues(request.body, 'workingDays')
        return showSetUp(reply, { values, workingDays, errors: reading.errors }, 422)
      }
      await setUpBusiness(deps, reading.values)
      const { email, password } = reading.values.owner
      const signedIn = await signIn(deps, email, password, undefined, sessionSecret(request, deps))
      if (signedIn.ok) keepSession(reply, deps, signedIn.secret, email)
      say(reply, 'You are set up, and the first page is open to homeowners. What they send appears here.')
      return reply.redirect('/queue', 303)
    },
  )
}

function showSetUp(
  reply: FastifyReply,
  data: { values: Record<string, string>; workingDays: string[]; errors?: Errors },
  status = 200,
) {
  const units = data.values.units === 'metric' ? 'metric' : 'us'
  return reply.page(
    'account/set-up',
    {
      ...data,
      finishes: starterFinishes(units),
      extras: starterExtras(units),
      timeZones: timeZones(),
      weekdays: WEEKDAYS,
    },
    status,
  )
}
