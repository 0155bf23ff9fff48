import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { findBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import type { Errors } from '../http/posted.ts'
import { FEW_A_MINUTE } from '../http/rate-limits.ts'
import { t, translator } from '../language/catalogue.ts'
import { readResetPassword } from './form.ts'
import { requirePasswordReset, resetPassword } from './password-reset.ts'
import { cameFrom } from './session-cookies.ts'

declare module '../http/render.ts' {
  interface Views {
    'account/new-password': { email: string }
  }
}

type ByToken = { Params: { token: string } }

const CONFIG = { access: 'link', ...FEW_A_MINUTE } as const

/** Where the owner chooses a new password by the link that the command `owner reset` prints. */
export function passwordResetRoutes(app: FastifyInstance, deps: Deps): void {
  app.get<ByToken>('/new-password/:token', { config: CONFIG }, async (request, reply) => {
    const { email } = await requirePasswordReset(deps, request.params.token)
    return showForm(reply, email)
  })

  app.post<ByToken>('/new-password/:token', { config: CONFIG }, async (request, reply) => {
    try {
      return await chooseByLink(request, reply)
    } catch (error) {
      if (!(error instanceof NotFound)) throw error
      // A button pressed twice is seen to fail, though the first press did all of it.
      say(reply, t(languageOf(request), 'account.reset-over'))
      return reply.redirect('/sign-in', 303)
    }
  })

  async function chooseByLink(request: FastifyRequest<ByToken>, reply: FastifyReply) {
    const { token } = request.params
    const { name, email } = await requirePasswordReset(deps, token)
    const business = await findBusiness(deps.db)
    const ownWords = [name, email, business?.name ?? '']
    const language = languageOf(request)
    const reading = await readResetPassword(new FormFields(request.body), ownWords, translator(language))
    if (!reading.ok) return showForm(reply, email, reading.errors, 422)
    await resetPassword(deps, token, reading.values, cameFrom(request))
    say(reply, t(language, 'account.reset-done'))
    return reply.redirect('/sign-in', 303)
  }
}

function showForm(reply: FastifyReply, email: string, errors: Errors = {}, status = 200) {
  return reply.page('account/new-password', { email, errors }, status)
}
