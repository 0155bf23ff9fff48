import type { FastifyInstance } from 'fastify'
import { changeBusiness } from '../business/change-business.ts'
import { readBusinessForm } from '../business/form.ts'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { showSettings } from './settings-page.ts'

/** The owner's page of facts about the business. */
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
}
