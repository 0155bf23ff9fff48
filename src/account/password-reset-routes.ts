import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { findBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { FEW_A_MINUTE } from '../http/rate-limits.ts'
import { t, translator } from '../language/catalogue.ts'
import { type AskedFor, askedFor, scriptsFor } from './asked-for.ts'
import { checkCode } from './check-code.ts'
import { codeFault } from './code-fault.ts'
import { readResetPassword } from './form.ts'
import { requirePasswordReset, resetPassword } from './password-reset.ts'
import { readGiven } from './second-factor.ts'
import { cameFrom } from './session-cookies.ts'

declare module '../http/render.ts' {
  interface Views {
    'account/new-password': { email: string; asked: AskedFor | null }
  }
}

type ByToken = { Params: { token: string } }

const CONFIG = { access: 'link', ...FEW_A_MINUTE } as const

/** Where the owner chooses a new password by the link that the command `owner reset` prints. */
export function passwordResetRoutes(app: FastifyInstance, deps: Deps): void {
  app.get<ByToken>('/new-password/:token', { config: CONFIG }, async (request, reply) => {
    return showForm(reply, deps, await requirePasswordReset(deps, request.params.token))
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
    const account = await requirePasswordReset(deps, token)
    const { name, email, asksCode } = account
    const business = await findBusiness(deps.db)
    const ownWords = [name, email, business?.name ?? '']
    const language = languageOf(request)
    const fields = new FormFields(request.body)
    const reading = await readResetPassword(fields, ownWords, translator(language))
    const given = readGiven(fields)
    const values = { code: given.code }
    if (!reading.ok) return showForm(reply, deps, account, values, reading.errors, 422)
    const from = cameFrom(request)
    const proof = asksCode ? await checkCode(deps, account, given, from) : { ok: true as const }
    if (!proof.ok) {
      const { errors, status } = codeFault(reply, language, proof, 'code')
      return showForm(reply, deps, account, values, errors, status)
    }
    await resetPassword(deps, token, reading.values, from)
    say(reply, t(language, 'account.reset-done'))
    return reply.redirect('/sign-in', 303)
  }
}

async function showForm(
  reply: FastifyReply,
  deps: Deps,
  { id, email, asksCode }: { id: number; email: string; asksCode: boolean },
  values: Typed = {},
  errors: Errors = {},
  status = 200,
) {
  const asked = asksCode ? await askedFor(deps, id) : null
  const scripts = scriptsFor(asked)
  return reply.page('account/new-password', { email, asked, values, errors, scripts }, status)
}
