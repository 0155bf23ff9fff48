import type { FastifyInstance, FastifyReply } from 'fastify'
import { changeKeeping, LONGEST, readKeeping } from '../business/keeping.ts'
import { requireBusiness } from '../business/queries.ts'
import type { KeepingSettings } from '../db/schema/business.ts'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'

declare module '../http/render.ts' {
  interface Views {
    'privacy/keeping': { longest: KeepingSettings; photosMonths: number; keepYears: number; values: Typed }
  }
}

const owner = { config: { access: 'owner' } } as const

/** For how long what is known of people is kept. */
export function keepingRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/settings/keeping', owner, (_request, reply) => show(deps, reply))

  app.post('/settings/keeping', owner, async (request, reply) => {
    const reading = readKeeping(new FormFields(request.body))
    if (!reading.ok) return show(deps, reply, reading)
    await changeKeeping(deps, reading.values)
    say(reply, 'Saved. What’s past its time goes tonight.')
    return reply.redirect('/settings/keeping', 303)
  })
}

async function show(deps: Deps, reply: FastifyReply, again?: { typed: Typed; errors: Errors }) {
  const { keeping, photos_months, billing } = await requireBusiness(deps.db)
  const kept = Object.fromEntries(Object.entries(keeping).map(([name, count]) => [name, String(count)]))
  const data = {
    ...{ longest: LONGEST, photosMonths: photos_months, keepYears: billing.keepYears },
    ...{ values: again?.typed ?? kept, errors: again?.errors ?? {} },
  }
  return reply.page('privacy/keeping', data, again ? 422 : 200)
}
