import type { FastifyInstance, FastifyReply } from 'fastify'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { changeRole } from './change-role.ts'
import { turnCodesOffFor } from './codes.ts'
import { readInvited, readRole } from './form.ts'
import { invite, requireInvitation, takeInvitationBack } from './invitations.ts'
import { linkForStaff } from './password-by-staff.ts'
import { showSettings } from './settings-page.ts'
import { removeStaff } from './staff.ts'

declare module '../http/render.ts' {
  interface Views {
    'account/pass-on': { heading: string; says: string; address: string; scripts: string[] }
  }
}

interface ById {
  Params: { id: string }
}

const OWNER = { config: { access: 'owner' } } as const
const DANGEROUS = { config: { access: 'owner', dangerous: true } } as const

/** Who works here: asking somebody, taking that back, another role, a link for a new password, and removing somebody. */
export function staffRoutes(app: FastifyInstance, deps: Deps): void {
  app.post('/settings/invitations', DANGEROUS, async (request, reply) => {
    const fields = new FormFields(request.body)
    const reading = readInvited(fields)
    if (!reading.ok) return showSettings(reply, deps, reading)
    try {
      const id = await invite(deps, requireAccount(request).id, reading.values)
      return reply.redirect(`/settings/invitations/${id}`, 303)
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      const errors = { 'invite.email': t('en', error.key) }
      return showSettings(reply, deps, { typed: fields.typed, errors }, 409)
    }
  })

  app.get<ById>('/settings/invitations/:id', DANGEROUS, async (request, reply) => {
    const { name, email, address } = await requireInvitation(deps, idOf(request.params))
    const mailed = email && deps.config.smtpUrl ? `It’s also on its way to ${email}. ` : ''
    return showLink(
      reply,
      `The invitation for ${name}`,
      `Send ${name} this link, and nobody else. ${mailed}It works once, for a week.`,
      address,
    )
  })

  app.post<ById>('/settings/invitations/:id/take-back', OWNER, async (request, reply) => {
    await takeInvitationBack(deps, idOf(request.params))
    say(reply, 'The invitation no longer works.')
    return reply.redirect('/settings#staff', 303)
  })

  app.post<ById>('/settings/staff/:id/password-link', DANGEROUS, async (request, reply) => {
    const link = await linkForStaff(deps, idOf(request.params))
    if (link.goes === 'by hand') {
      const { name, address } = link
      const says = `Send ${name} this link, and nobody else. It works once, for 30 minutes. You won’t see it again.`
      return showLink(reply, `A new password for ${name}`, says, address)
    }
    say(
      reply,
      link.goes === 'by mail'
        ? `A link to choose a new password is on its way to ${link.email}.`
        : `${link.email} got three links within this hour. Please try again later.`,
    )
    return reply.redirect('/settings#staff', 303)
  })

  app.post<ById>('/settings/staff/:id/codes-off', DANGEROUS, async (request, reply) => {
    await turnCodesOffFor(deps, idOf(request.params))
    say(reply, 'They sign in with their password alone now.')
    return reply.redirect('/settings#staff', 303)
  })

  app.post<ById>('/settings/staff/:id/remove', DANGEROUS, async (request, reply) => {
    await removeStaff(deps, idOf(request.params))
    say(reply, 'Their account is removed, and they’re signed out everywhere.')
    return reply.redirect('/settings#staff', 303)
  })

  app.post<ById>('/settings/staff/:id/role', DANGEROUS, async (request, reply) => {
    const reading = readRole(new FormFields(request.body))
    if (!reading.ok) return showSettings(reply, deps, reading)
    const role = reading.values
    const { name, isNew } = await changeRole(deps, requireAccount(request).id, idOf(request.params), role)
    const now = role === 'office' ? 'in the office' : 'a helper'
    say(
      reply,
      isNew
        ? `${name} is ${now} now, and signed out everywhere to start over.`
        : `${name} is ${now} already.`,
    )
    return reply.redirect('/settings#staff', 303)
  })
}

function idOf({ id }: ById['Params']): number {
  if (!/^\d{1,15}$/.test(id)) throw new NotFound()
  return Number(id)
}

function showLink(reply: FastifyReply, heading: string, says: string, address: string) {
  return reply.page('account/pass-on', { heading, says, address, scripts: ['copy.js'] })
}
