import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import type { Deps } from '../deps.ts'
import { FormFields } from '../http/form-fields.ts'
import { type KeptField, keptFields } from '../http/kept-fields.ts'
import { languageOf } from '../http/language.ts'
import type { Errors } from '../http/posted.ts'
import { FEW_A_MINUTE } from '../http/rate-limits.ts'
import { ROLES } from '../http/roles.ts'
import { requireAccount } from '../http/signed-in.ts'
import { fieldsIn } from '../http/uploaded.ts'
import { t } from '../language/catalogue.ts'
import { localPath } from '../lib/local-path.ts'
import { type AskedFor, askedFor, scriptsFor } from './asked-for.ts'
import { WRONG } from './code-fault.ts'
import { isProved, type Proof, proveAgain } from './prove-again.ts'
import { type Given, readGiven } from './second-factor.ts'
import { sessionSecret } from './session-cookies.ts'

/** What waits for the password, and the code that was typed with a wrong one. */
interface Waiting {
  action: string
  kept: KeptField[]
  code?: string
}

declare module '../http/render.ts' {
  interface Views {
    'account/again': { action: string; kept: KeptField[]; asked: AskedFor | null }
  }
}

declare module 'fastify' {
  interface FastifyContextConfig {
    /** Asks for the password, unless it was typed within a quarter of an hour. Not for a form that has a secret in it. */
    dangerous?: boolean
  }
}

const AGAIN = 'again.'
const SAID = { password: 'account.again-wrong', ...WRONG } as const

/**
 * Holds up routes that say `dangerous` until who is signed in has proved it again. A form waits on the page that asks, its fields along with it, and
 * goes on to where it was sent; a file has to be chosen anew.
 */
export function askAgainForDanger(app: FastifyInstance, deps: Deps): void {
  app.addHook('preHandler', async (request, reply) => {
    if (!request.routeOptions.config.dangerous || isProved(request.provedAt, deps.now())) return
    if (request.method !== 'POST')
      return reply.redirect(`/password/again?back=${encodeURIComponent(request.url)}`, 303)
    const given = takeGiven(request)
    const waiting = { action: request.url, kept: keptFields(request.body) }
    if (!given) return showAgain(request, reply, deps, waiting, {}, 403)
    const proof = await proveAgain(deps, requireAccount(request), sessionSecret(request, deps)!, given)
    if (!proof.ok) return refuse(request, reply, deps, { ...waiting, code: given.code }, proof)
  })
}

/** The page that asks, for a page that waits. */
export function againRoutes(app: FastifyInstance, deps: Deps): void {
  const STAFF = { config: { access: 'staff', ...FEW_A_MINUTE } } as const
  const backOf = (request: FastifyRequest, back: unknown) =>
    localPath(typeof back === 'string' ? back : undefined, ROLES[requireAccount(request).role].startsAt)

  app.get('/password/again', STAFF, async (request, reply) => {
    const back = backOf(request, (request.query as { back?: unknown }).back)
    if (isProved(request.provedAt, deps.now())) return reply.redirect(back, 303)
    return showAgain(request, reply, deps, waitingFor(back))
  })

  app.post('/password/again', STAFF, async (request, reply) => {
    const back = backOf(request, new FormFields(request.body).text('back'))
    const given = takeGiven(request) ?? { password: '', code: '', passkey: '' }
    const proof = await proveAgain(deps, requireAccount(request), sessionSecret(request, deps)!, given)
    if (proof.ok) return reply.redirect(back, 303)
    return refuse(request, reply, deps, { ...waitingFor(back), code: given.code }, proof)
  })
}

const waitingFor = (back: string) => ({ action: '/password/again', kept: [{ name: 'back', value: back }] })

/** What was typed on the page that asks, taken out of the form, as it is nothing of the route's; null where the form comes from elsewhere. */
function takeGiven(request: FastifyRequest): ({ password: string } & Given) | null {
  const again = new FormFields(request.body).group('again')
  const given = again.has('password')
    ? { password: again.secret('password').slice(0, 1000), ...readGiven(again) }
    : null
  const fields = fieldsIn(request.body)
  for (const name of Object.keys(fields)) if (name.startsWith(AGAIN)) delete fields[name]
  return given
}

function refuse(
  request: FastifyRequest,
  reply: FastifyReply,
  deps: Deps,
  waiting: Waiting,
  { wrong, waitSeconds }: Exclude<Proof, { ok: true }>,
) {
  if (waitSeconds > 0) reply.header('retry-after', waitSeconds)
  const key = waitSeconds > 0 ? 'account.wait' : SAID[wrong]
  const field = wrong === 'password' ? 'password' : 'code'
  const errors = { [AGAIN + field]: t(languageOf(request), key, { seconds: waitSeconds }) }
  return showAgain(request, reply, deps, waiting, errors, waitSeconds > 0 ? 429 : 422)
}

async function showAgain(
  request: FastifyRequest,
  reply: FastifyReply,
  deps: Deps,
  { code = '', ...waiting }: Waiting,
  errors: Errors = {},
  status = 200,
) {
  reply.header('cache-control', 'no-store')
  const asked = await askedFor(deps, requireAccount(request).id)
  const values = { [`${AGAIN}code`]: code }
  return reply.page(
    'account/again',
    { ...waiting, asked, values, errors, scripts: scriptsFor(asked) },
    status,
  )
}
