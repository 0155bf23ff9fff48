import type { FastifyInstance } from 'fastify'
import { reopenJob, type UsedAlready } from '../closing/reopen.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { nameOfThing, unitsOfPack } from '../on-hand/pack-words.ts'
import { findRateTable } from '../rates/queries.ts'
import { requireRequestId } from '../requests/queries.ts'
import { showRequest } from './request-page.ts'

/** Opening a job again that was closed by mistake. */
export function reopenRoute(app: FastifyInstance, deps: Deps): void {
  app.post<{ Params: { number: string } }>(
    '/queue/:number/reopen',
    { config: { access: 'owner' } },
    async (request, reply) => {
      const { number } = request.params
      const id = await requireRequestId(deps.db, number)
      const version = new FormFields(request.body).carried('version')
      try {
        const used = await reopenJob(deps, requireAccount(request).id, id, version)
        say(reply, [`${number} is open again.`, ...(await usedInWords(deps, used))].join(' '))
      } catch (error) {
        if (!(error instanceof Conflict) || error.key === 'error.stage') throw error
        return showRequest(deps, reply, number, { errors: { '': t('en', error.key, error.params) } })
      }
      return reply.redirect(`/queue/${number}`, 303)
    },
  )
}

async function usedInWords(deps: Deps, used: UsedAlready[]): Promise<string[]> {
  const rates = used.length > 0 ? await findRateTable(deps.db, deps.now()) : undefined
  if (!rates) return []
  return used.map(one => {
    const what = `${unitsOfPack(one.units, one, rates.body, 'en')}, ${nameOfThing(one, rates.body, 'en')}`
    return `Of what it left over, ${what} is used already: it can’t come off on hand. Count what is there.`
  })
}
