import type { FastifyInstance, FastifyReply } from 'fastify'
import { changeBusiness } from '../business/change-business.ts'
import { readBusinessForm } from '../business/form.ts'
import { findBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { t } from '../language/catalogue.ts'
import { readHelper } from './form.ts'
import { linkForHelper } from './password-by-staff.ts'
import { showSettings } from './settings-page.ts'
import { addHelper, removeHelper } from './staff.ts'

declare module '../http/render.ts' {
  interface Views {
    'account/pass-on': { heading: string; says: string; address: string; scripts: string[] }
  }
}

/** The owner's page of facts about the business and of who helps. */
export function settingsRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/settings', { config: { access: 'owner' } }, (_request, reply) => showSettings(reply, deps, {}))

  app.post('/settings/business', { config: { access: 'owner' } }, async (request, reply) => {
    const fields = new FormFields(request.body)
    const reading = readBusinessForm(fields)
    if (!reading.ok)
      return showSettings(reply, deps, { ...reading, workingDays: fields.ticks('workingDays') })
    await changeBusiness(deps, reading.values)
    say(reply, 'Your business details are saved.')
    return reply.redirect('/settings', 303)
  })

  app.post('/settings/helpers', { config: { access: 'owner' } }, async (request, reply) => {
    const fields = new FormFields(request.body)
    const business = await findBusiness(deps.db)
    const reading = readHelper(fields, business?.name ?? '')
    if (!reading.ok) return showSettings(reply, deps, reading)
    try {
      await addHelper(deps, reading.values)
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      const errors = { 'helper.email': t('en', error.key) }
      return showSettings(reply, deps, { typed: fields.typed, errors }, 409)
    }
    say(reply, `${reading.values.name} can sign in now.`)
    return reply.redirect('/settings', 303)
  })

  app.post<{ Params: { id: string } }>(
    '/settings/helpers/:id/password-link',
    { config: { access: 'owner' } },
    async (request, reply) => {
      if (!/^\d{1,15}$/.test(request.params.id)) throw new NotFound()
      const link = await linkForHelper(deps, Number(request.params.id))
      if (link.goes === 'by hand') return showLink(reply, link)
      const isMailed = link.goes === 'by mail'
      say(
        reply,
        isMailed
          ? `A link to choose a new password is on its way to ${link.email}.`
          : `${link.email} got three links within this hour. Please try again later.`,
      )
      return reply.redirect('/settings#helpers', 303)
    },
  )

  app.post<{ Params: { id: string } }>(
    '/settings/helpers/:id/remove',
    { config: { access: 'owner' } },
    async (request, reply) => {
      if (!/^\d{1,15}$/.test(request.params.id)) throw new NotFound()
      await removeHelper(deps, Number(request.params.id))
      say(reply, 'The helper is removed and signed out everywhere.')
      return reply.redirect('/settings', 303)
    },
  )
}

function showLink(reply: FastifyReply, { name, address }: { name: string; address: string }) {
  return reply.page('account/pass-on', {
    heading: `A new password for ${name}`,
    says: `Send ${name} this link, and nobody else. It works once, for 30 minutes. You won’t see it again.`,
    address,
    scripts: ['copy.js'],
  })
}
