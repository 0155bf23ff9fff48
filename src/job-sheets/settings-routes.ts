import type { FastifyInstance, FastifyReply } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { unitSystem } from '../estimate/units/units.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { requireAccount } from '../http/signed-in.ts'
import { Decimal } from '../lib/decimal.ts'
import { changeSheetSettings, findSheetSettings, readSheetSettings } from './settings.ts'

declare module '../http/render.ts' {
  interface Views {
    'job-sheets/settings': { unit: string; values: Typed }
  }
}

const PAGE = '/settings/job-sheets'
const OWNER = { config: { access: 'owner' as const } }

/** How job sheets are reckoned, as the owner wants it. */
export function sheetSettingsRoutes(app: FastifyInstance, deps: Deps): void {
  app.get(PAGE, OWNER, (_request, reply) => show(deps, reply))

  app.post(PAGE, OWNER, async (request, reply) => {
    const reading = readSheetSettings(new FormFields(request.body))
    if (!reading.ok) return show(deps, reply, reading)
    await changeSheetSettings(deps, requireAccount(request).id, reading.values)
    say(reply, 'Saved.')
    return reply.redirect(PAGE, 303)
  })
}

async function show(deps: Deps, reply: FastifyReply, again?: { typed: Typed; errors: Errors }) {
  const { units } = await requireBusiness(deps.db)
  const { barrow, digWaitDays, digValidDays, digSource } = await findSheetSettings(deps.db, units)
  const values = {
    ...{ barrow: new Decimal(barrow).toString(), digSource },
    ...{ digWaitDays: digWaitDays?.toString() ?? '', digValidDays: digValidDays?.toString() ?? '' },
    ...again?.typed,
  }
  const unit = unitSystem(units).volume === 'ft3' ? 'ft³' : 'm³'
  return reply.page('job-sheets/settings', { unit, values, errors: again?.errors ?? {} }, again ? 422 : 200)
}
