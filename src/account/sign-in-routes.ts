import type { FastifyInstance, FastifyReply } from 'fastify'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { FEW_A_MINUTE } from '../http/rate-limits.ts'
import { ROLES } from '../http/roles.ts'
import { t, translator } from '../language/catalogue.ts'
import { localPath } from '../lib/local-path.ts'
import { hashSecret } from '../lib/tokens.ts'
import { type AskedFor, askedFor, scriptsFor } from './asked-for.ts'
import { codeFault } from './code-fault.ts'
import { readSignIn } from './form.ts'
import { findHalfSignedIn } from './half-signed-in.ts'
import { hasOwner } from './queries.ts'
import { readGiven } from './second-factor.ts'
import { browserHere, cameFrom, dropSession, keepSession, sessionSecret } from './session-cookies.ts'
import { deleteSession } from './session-queries.ts'
import { signIn, signInByCode } from './sign-in.ts'

declare module '../http/render.ts' {
  interface Views {
    'account/sign-in': { values: Typed; back: string; open: boolean }
    'account/code': { half: string; back: string; asked: AskedFor }
  }
}

export function signInRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/sign-in', { config: { access: 'open' } }, async (request, reply) => {
    const { back } = request.query as { back?: unknown }
    if (request.account) return reply.redirect(ROLES[request.account.role].startsAt, 303)
    return showSignIn(reply, deps, { values: {}, back: typeof back === 'string' ? back : '' })
  })

  app.post('/sign-in', { config: { access: 'open', ...FEW_A_MINUTE } }, async (request, reply) => {
    const fields = new FormFields(request.body)
    const translate = translator(languageOf(request))
    const back = fields.text('back')
    const reading = readSignIn(fields, translate)
    if (!reading.ok)
      return showSignIn(reply, deps, { values: reading.typed, back, errors: reading.errors }, 422)
    const { email, password } = reading.values
    const outcome = await signIn(deps, email, password, cameFrom(request), browserHere(request, deps))
    if (outcome.ok) {
      keepSession(reply, deps, outcome.session, email)
      return reply.redirect(localPath(back, ROLES[outcome.account.role].startsAt), 303)
    }
    if ('half' in outcome) return showCode(reply, deps, { half: outcome.half, back })
    const { waitSeconds } = outcome
    if (waitSeconds > 0) reply.header('retry-after', waitSeconds)
    const key = waitSeconds > 0 ? 'account.wait' : 'account.no-match'
    const errors = { email: translate(key, { seconds: waitSeconds }) }
    return showSignIn(reply, deps, { values: fields.typed, back, errors }, waitSeconds > 0 ? 429 : 422)
  })

  app.post('/sign-in/code', { config: { access: 'open', ...FEW_A_MINUTE } }, async (request, reply) => {
    const fields = new FormFields(request.body)
    const [half, back] = [fields.text('half'), fields.text('back')]
    const here = browserHere(request, deps)
    const given = readGiven(fields)
    const outcome = await signInByCode(deps, half, given, cameFrom(request), here)
    if (outcome.ok) {
      keepSession(reply, deps, outcome.session, outcome.email)
      return reply.redirect(localPath(back, ROLES[outcome.account.role].startsAt), 303)
    }
    if ('over' in outcome) {
      // A button pressed twice is seen to fail, though the first press did all of it.
      if (request.account) return reply.redirect(localPath(back, ROLES[request.account.role].startsAt), 303)
      say(reply, t(languageOf(request), 'account.code-over'))
      return reply.redirect('/sign-in', 303)
    }
    const { errors, status } = codeFault(reply, languageOf(request), outcome, 'code')
    return showCode(reply, deps, { half, back, errors, values: { code: given.code } }, status)
  })

  app.post('/sign-out', { config: { access: 'open' } }, async (request, reply) => {
    const secret = sessionSecret(request, deps)
    if (secret) await deleteSession(deps.db, hashSecret(secret))
    dropSession(reply, deps)
    say(reply, t(languageOf(request), 'account.signed-out'))
    return reply.redirect('/sign-in', 303)
  })
}

async function showCode(
  reply: FastifyReply,
  deps: Deps,
  data: { half: string; back: string; errors?: Errors; values?: Typed },
  status = 200,
) {
  reply.header('cache-control', 'no-store')
  const account = await findHalfSignedIn(deps, data.half)
  const asked = (account && (await askedFor(deps, account.id))) ?? { hasApp: false, passkey: null }
  return reply.page('account/code', { ...data, asked, here: null, scripts: scriptsFor(asked) }, status)
}

async function showSignIn(
  reply: FastifyReply,
  deps: Deps,
  data: { values: Typed; back: string; errors?: Errors },
  status = 200,
) {
  reply.header('cache-control', 'no-store')
  return reply.page('account/sign-in', { ...data, open: await hasOwner(deps.db) }, status)
}
