import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { findBusiness } from '../business/queries.ts'
import type { GivenRole } from '../db/schema/accounts.ts'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { FEW_A_MINUTE } from '../http/rate-limits.ts'
import { ROLES } from '../http/roles.ts'
import { t, translator } from '../language/catalogue.ts'
import { readAccepted } from './form.ts'
import { findInvitation } from './invitation-queries.ts'
import { acceptInvitation } from './invitations.ts'
import { browserHere, keepSession } from './session-cookies.ts'

declare module '../http/render.ts' {
  interface Views {
    'account/invitation': { role: GivenRole; values: Typed }
  }
}

type ByToken = { Params: { token: string } }

const LINK = { config: { access: 'link', ...FEW_A_MINUTE } } as const

/** Where somebody who was invited chooses a password. */
export function invitationRoutes(app: FastifyInstance, deps: Deps): void {
  const requireOpen = async (token: string) => {
    const invitation = await findInvitation(deps.db, token, deps.now().toString())
    if (!invitation) throw new NotFound()
    return invitation
  }

  app.get<ByToken>('/invitation/:token', LINK, async (request, reply) => {
    const { role, name, email } = await requireOpen(request.params.token)
    return showInvitation(reply, role, { name, email })
  })

  app.post<ByToken>('/invitation/:token', LINK, async (request, reply) => {
    try {
      const { role } = await requireOpen(request.params.token)
      return await accept(request, reply, role)
    } catch (error) {
      if (!(error instanceof NotFound)) throw error
      // A button pressed twice is seen to fail, though the first press did all of it.
      if (request.account) return reply.redirect(ROLES[request.account.role].startsAt, 303)
      say(reply, t(languageOf(request), 'account.invitation-over'))
      return reply.redirect('/sign-in', 303)
    }
  })

  async function accept(request: FastifyRequest<ByToken>, reply: FastifyReply, role: GivenRole) {
    const translate = translator(languageOf(request))
    const business = await findBusiness(deps.db)
    const fields = new FormFields(request.body)
    const reading = await readAccepted(fields, [business?.name ?? ''], translate)
    if (!reading.ok) return showInvitation(reply, role, reading.typed, reading.errors, 422)
    try {
      const here = browserHere(request, deps)
      const { token } = request.params
      const { account, session } = await acceptInvitation(deps, token, reading.values, here)
      keepSession(reply, deps, session, reading.values.email)
      return reply.redirect(ROLES[account.role].startsAt, 303)
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      return showInvitation(reply, role, fields.typed, { email: translate(error.key) }, 409)
    }
  }
}

function showInvitation(
  reply: FastifyReply,
  role: GivenRole,
  values: Typed,
  errors: Errors = {},
  status = 200,
) {
  return reply.page('account/invitation', { role, values, errors }, status)
}
