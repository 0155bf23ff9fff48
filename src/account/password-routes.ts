import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { findBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import type { Errors } from '../http/posted.ts'
import { FEW_A_MINUTE } from '../http/rate-limits.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t, translator } from '../language/catalogue.ts'
import { changePassword } from './change-password.ts'
import { readNewPassword } from './form.ts'
import { browserHere, keepSession } from './session-cookies.ts'
import { type SessionShown, sessionsShown } from './session-routes.ts'

declare module '../http/render.ts' {
  interface Views {
    'account/password': { sessions: SessionShown[] }
  }
}

/** Everybody's own page: the password, and where one is signed in. */
export function passwordRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/password', { config: { access: 'staff' } }, (request, reply) =>
    showPassword(request, reply, deps),
  )

  app.post('/password', { config: { access: 'staff', ...FEW_A_MINUTE } }, async (request, reply) => {
    const account = requireAccount(request)
    const language = languageOf(request)
    const fields = new FormFields(request.body)
    const reading = await readNewPassword(fields, await ownWords(request, deps), translator(language))
    if (!reading.ok) return showPassword(request, reply, deps, reading.errors)
    const { current, fresh } = reading.values
    const outcome = await changePassword(deps, account, current, fresh, browserHere(request, deps))
    if (!outcome.ok) {
      const { waitSeconds } = outcome
      const key = waitSeconds > 0 ? 'account.wait' : 'account.current-wrong'
      const errors = { current: t(language, key, { seconds: waitSeconds }) }
      return showPassword(request, reply, deps, errors, waitSeconds > 0 ? 429 : 422)
    }
    keepSession(reply, deps, outcome.secret, account.email)
    say(reply, t(language, 'account.password-changed'))
    return reply.redirect('/password', 303)
  })
}

async function ownWords(request: FastifyRequest, deps: Deps): Promise<string[]> {
  const { name, email } = requireAccount(request)
  const business = await findBusiness(deps.db)
  return [name, email, business?.name ?? '']
}

async function showPassword(
  request: FastifyRequest,
  reply: FastifyReply,
  deps: Deps,
  errors: Errors = {},
  status = Object.keys(errors).length > 0 ? 422 : 200,
) {
  const sessions = await sessionsShown(request, deps)
  return reply.page('account/password', { sessions, errors }, status)
}
