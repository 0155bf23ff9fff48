import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { FEW_A_MINUTE } from '../http/rate-limits.ts'
import { ROLES } from '../http/roles.ts'
import { t, translator } from '../language/catalogue.ts'
import { networkOf } from '../limits/network.ts'
import { askForPassword } from './ask-for-password.ts'
import { type AskedFor, askedFor, scriptsFor } from './asked-for.ts'
import { checkCode } from './check-code.ts'
import { codeFault } from './code-fault.ts'
import { readForgotten } from './form.ts'
import { hasOwner } from './queries.ts'
import { asksForCode, readGiven } from './second-factor.ts'
import { browserHere, cameFrom, keepSession } from './session-cookies.ts'
import { requireSignInLink, signInByLink } from './sign-in-link.ts'

declare module '../http/render.ts' {
  interface Views {
    'account/forgot-password': { values: Typed; sendsMail: boolean }
    'account/sign-in-link': { email: string; asked: AskedFor | null }
  }
}

type ByToken = { Params: { token: string } }

const OPEN = { access: 'open', ...FEW_A_MINUTE } as const
const LINK = { access: 'link', ...FEW_A_MINUTE } as const

/** A link to choose a new password, by mail; and the link that signs in while strangers guess. */
export function mailedLinkRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/forgot-password', { config: { access: 'open' } }, async (_request, reply) => {
    if (!(await hasOwner(deps.db))) return reply.redirect('/sign-in', 303)
    return showForgotten(reply, deps, {})
  })

  app.post('/forgot-password', { config: OPEN }, async (request, reply) => {
    const translate = translator(languageOf(request))
    const fields = new FormFields(request.body)
    const reading = readForgotten(fields, translate)
    if (!reading.ok) return showForgotten(reply, deps, reading.typed, reading.errors, 422)
    if (!deps.config.smtpUrl) return showForgotten(reply, deps, fields.typed)
    const waitSeconds = await askForPassword(deps, reading.values, networkOf(request.ip))
    if (waitSeconds > 0) {
      reply.header('retry-after', waitSeconds)
      const errors = { email: translate('account.wait', { seconds: waitSeconds }) }
      return showForgotten(reply, deps, fields.typed, errors, 429)
    }
    say(reply, translate('account.forgot-sent'))
    return reply.redirect('/sign-in', 303)
  })

  // Whoever reads mail for viruses opens links: only the button signs in.
  app.get<ByToken>('/sign-in-link/:token', { config: LINK }, async (request, reply) => {
    return showLink(reply, await requireSignInLink(deps, request.params.token))
  })

  app.post<ByToken>('/sign-in-link/:token', { config: LINK }, async (request, reply) => {
    try {
      return await enterByLink(request, reply)
    } catch (error) {
      if (!(error instanceof NotFound)) throw error
      // A button pressed twice is seen to fail, though the first press signed in.
      if (request.account) return reply.redirect(ROLES[request.account.role].startsAt, 303)
      say(reply, t(languageOf(request), 'account.by-link-over'))
      return reply.redirect('/sign-in', 303)
    }
  })

  async function enterByLink(request: FastifyRequest<ByToken>, reply: FastifyReply) {
    const account = await requireSignInLink(deps, request.params.token)
    if (await asksForCode(deps.db, account.id)) {
      const given = readGiven(new FormFields(request.body))
      const proof = await checkCode(deps, account, given, cameFrom(request))
      if (!proof.ok) {
        const { errors, status } = codeFault(reply, languageOf(request), proof, 'code')
        return showLink(reply, account, { code: given.code }, errors, status)
      }
    }
    const entered = await signInByLink(deps, request.params.token, browserHere(request, deps))
    keepSession(reply, deps, entered.session, entered.email)
    return reply.redirect(ROLES[entered.account.role].startsAt, 303)
  }

  async function showLink(
    reply: FastifyReply,
    { id, email }: { id: number; email: string },
    values: Typed = {},
    errors: Errors = {},
    status = 200,
  ) {
    const asked = await askedFor(deps, id)
    const scripts = scriptsFor(asked)
    return reply.page('account/sign-in-link', { email, asked, values, errors, scripts }, status)
  }
}

function showForgotten(reply: FastifyReply, deps: Deps, values: Typed, errors: Errors = {}, status = 200) {
  const sendsMail = deps.config.smtpUrl !== undefined
  return reply.page('account/forgot-password', { values, sendsMail, errors }, status)
}
