import type { FastifyInstance, FastifyReply } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { changeDayRules, readDayRules, rulesAsFields } from './rules.ts'

declare module '../http/render.ts' {
  interface Views {
    'days/rules': { values: Typed }
  }
}

const OWNER = { config: { access: 'owner' } } as const

/** How days are chosen and moved, as the owner wants it. */
export function dayRulesRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/settings/days', OWNER, (_request, reply) => show(deps, reply))

  app.post('/settings/days', OWNER, async (request, reply) => {
    const reading = readDayRules(new FormFields(request.body))
    if (!reading.ok) return show(deps, reply, reading)
    await changeDayRules(deps, reading.values)
    say(reply, 'Saved.')
    return reply.redirect('/settings/days', 303)
  })
}

async function show(deps: Deps, reply: FastifyReply, again?: { typed: Typed; errors: Errors }) {
  const business = await requireBusiness(deps.db)
  const values = again?.typed ?? rulesAsFields(business)
  return reply.page('days/rules', { values, errors: again?.errors ?? {} }, again ? 422 : 200)
}
