import type { FastifyInstance } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { AccessLogTable } from '../db/schema/privacy.ts'
import type { Deps } from '../deps.ts'
import type { Typed } from '../http/posted.ts'
import { datedDay, timeInWords } from '../language/dates-in-words.ts'
import { dayOf } from '../lib/dates.ts'

declare module '../http/render.ts' {
  interface Views {
    'privacy/access-log': {
      entries: { who: string; what: string; when: string; customer: number | null; requests: string }[]
      /** Where the older entries are; null where these are the oldest. */
      older: string | null
    }
  }
}

const SHOWN = 100

const SAID: Record<AccessLogTable['verb'], string> = {
  exported: 'saved a zip',
  'customers exported': 'saved all customers in a file',
  'books exported': 'saved the books for the accountant',
  erased: 'erased',
  'papers erased': 'took the names out of bills, certificates, and hours',
}

/** Who took data out or erased it, the newest first. */
export function accessLogRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/access-log', { config: { access: 'owner' } }, async (request, reply) => {
    const { time_zone } = await requireBusiness(deps.db)
    const before = /^\d{1,15}$/.exec((request.query as Typed).before ?? '')?.[0]
    const rows = await deps.db
      .selectFrom('access_log')
      .leftJoin('account', 'account.id', 'access_log.account_id')
      .select(['access_log.id', 'at', 'verb', 'customer_id', 'requests', 'account.name as who'])
      .$if(before !== undefined, query => query.where('access_log.id', '<', Number(before)))
      .orderBy('access_log.id', 'desc')
      .limit(SHOWN)
      .execute()
    return reply.page('privacy/access-log', {
      entries: rows.map(({ at, verb, customer_id, requests, who }) => ({
        ...{ who: who ?? 'The nightly work', what: SAID[verb], when: whenInWords(at, time_zone) },
        ...{ customer: customer_id, requests: requests.join(', ') },
      })),
      older: rows.length === SHOWN ? `/access-log?before=${rows.at(-1)!.id}` : null,
    })
  })
}

function whenInWords(at: string, zone: string): string {
  return `${datedDay(dayOf(Temporal.Instant.from(at), zone))}, ${timeInWords(at, zone, 'en')}`
}
