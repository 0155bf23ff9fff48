import type { FastifyInstance, FastifyReply } from 'fastify'
import { changeBilling, readBilling } from '../business/billing.ts'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'

declare module '../http/render.ts' {
  interface Views {
    'account/billing': {
      /** Whether the business works in the United States. */
      inStates: boolean
      values: Typed
    }
  }
}

const owner = { config: { access: 'owner' } } as const

/** What stands on bills, and how long what concerns money is kept. */
export function billingSettingsRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/settings/billing', owner, (_request, reply) => show(deps, reply))

  app.post('/settings/billing', owner, async (request, reply) => {
    const reading = readBilling(new FormFields(request.body))
    if (!reading.ok) return show(deps, reply, reading)
    await changeBilling(deps, reading.values)
    say(reply, 'Saved. Bills show it from now on.')
    return reply.redirect('/settings/billing', 303)
  })
}

async function show(deps: Deps, reply: FastifyReply, again?: { typed: Typed; errors: Errors }) {
  const { billing, country } = await requireBusiness(deps.db)
  const values = again?.typed ?? {
    payWordsEn: billing.words.en,
    payWordsEs: billing.words.es,
    payLink: billing.link,
    returnedFee: billing.returnedFee,
    reportFrom: billing.reportFrom,
    keepYears: String(billing.keepYears),
  }
  const data = { inStates: country === 'US', values, errors: again?.errors ?? {} }
  return reply.page('account/billing', data, again ? 422 : 200)
}
