import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { findBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { FEW_A_MINUTE } from '../http/rate-limits.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t, translator } from '../language/catalogue.ts'
import { type AskedFor, askedFor, scriptsFor } from './asked-for.ts'
import { hasApp } from './authenticator.ts'
import { changePassword } from './change-password.ts'
import { WRONG } from './code-fault.ts'
import { readNewPassword } from './form.ts'
import { findPasskeys } from './passkeys.ts'
import { isProved } from './prove-again.ts'
import { asksForCode, readGiven } from './second-factor.ts'
import { browserHere, keepSession } from './session-cookies.ts'
import { type SessionShown, sessionsShown } from './session-routes.ts'

declare module '../http/render.ts' {
  interface Views {
    'account/password': { sessions: SessionShown[]; isOn: boolean; passkeys: number; asked: AskedFor | null }
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
    if (!reading.ok) return showPassword(request, reply, deps, { code: fields.text('code') }, reading.errors)
    const { current, fresh } = reading.values
    const given = (await asksHere(request, deps)) ? readGiven(fields) : null
    const outcome = await changePassword(deps, account, current, fresh, browserHere(request, deps), given)
    if (!outcome.ok) {
      const { waitSeconds, wrong } = outcome
      const key = waitSeconds > 0 ? 'account.wait' : SAID[wrong]
      if (waitSeconds > 0) reply.header('retry-after', waitSeconds)
      const errors = {
        [wrong === 'password' ? 'current' : 'code']: t(language, key, { seconds: waitSeconds }),
      }
      return showPassword(
        request,
        reply,
        deps,
        { code: given?.code ?? '' },
        errors,
        waitSeconds > 0 ? 429 : 422,
      )
    }
    keepSession(reply, deps, outcome.session, account.email)
    say(reply, t(language, 'account.password-changed'))
    return reply.redirect('/password', 303)
  })
}

const SAID = { password: 'account.current-wrong', ...WRONG } as const

// The current password is asked for in any case; a code only where none was typed just now.
async function asksHere(request: FastifyRequest, deps: Deps): Promise<boolean> {
  return !isProved(request.provedAt, deps.now()) && asksForCode(deps.db, requireAccount(request).id)
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
  values: Typed = {},
  errors: Errors = {},
  status = Object.keys(errors).length > 0 ? 422 : 200,
) {
  const sessions = await sessionsShown(request, deps)
  const { id } = requireAccount(request)
  const isOn = await hasApp(deps.db, id)
  const passkeys = (await findPasskeys(deps.db, id)).length
  const asked = (await asksHere(request, deps)) ? await askedFor(deps, id) : null
  const data = { sessions, isOn, passkeys, asked, scripts: scriptsFor(asked), values, errors }
  return reply.page('account/password', data, status)
}
