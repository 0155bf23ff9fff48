import type { FastifyInstance, FastifyReply } from 'fastify'
import type { Deps } from '../deps.ts'
import type { RateTable } from '../estimate/rate-table.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { requireAccount } from '../http/session.ts'
import { t } from '../language/catalogue.ts'
import { findDraft } from './draft/queries.ts'
import { type Errors, readHandful, typedFields } from './form.ts'
import { fieldsOf, offerableExtras, offerableFinishes } from './handful.ts'
import { findNotLookedAt } from './looked-at.ts'
import { type NotLookedAt, viewNotLookedAt } from './not-looked-at.ts'
import { findNewestVersion, findRateTable } from './queries.ts'
import { changeRates } from './rates.ts'
import { type Settled, settledFigures } from './start/start-figures.ts'
import { perInWords, type TableInWords, tableInWords } from './table-in-words.ts'
import { findWaiting, type Waiting } from './waiting.ts'

declare module '../http/render.ts' {
  interface Views {
    'rates/show': {
      values: Record<string, string>
      version: number
      /** The newest version, in force or waiting: what saving follows on. */
      newest: number
      waiting: Waiting[]
      draftOpen: boolean
      table: RateTable
      inWords: TableInWords
      finishes: { slug: string; name: { en: string } }[]
      extras: { slug: string; name: { en: string }; perWords: string }[]
      costsKnown: boolean
      settled: Settled[]
      notLookedAt: NotLookedAt
    }
  }
}

export function ratesRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/rates', { config: { access: 'owner' } }, (_request, reply) => showRates(reply, deps, {}))

  app.post('/rates', { config: { access: 'owner' } }, async (request, reply) => {
    const inForce = await findRateTable(deps.db, deps.now())
    if (!inForce) throw new NotFound()
    const typed = typedFields(request.body)
    const finishes = offerableFinishes(inForce.body).map(finish => finish.slug)
    const extras = offerableExtras(inForce.body).map(extra => extra.slug)
    const { handful, errors } = readHandful(request.body, finishes, extras)
    if (Object.keys(errors).length > 0) return showRates(reply, deps, { typed, errors }, 422)
    try {
      const made = await changeRates(deps, requireAccount(request).id, Number(typed.version), handful)
      say(
        reply,
        made ? `Saved: version ${made} is in force.` : 'Nothing was different, so nothing was saved.',
      )
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      const { version: _old, ...kept } = typed
      return showRates(reply, deps, { typed: kept, errors: { '': t('en', error.key) } }, 409)
    }
    return reply.redirect('/rates', 303)
  })
}

/** The page of the rates, with what was typed and refused when it is shown again. */
export async function showRates(
  reply: FastifyReply,
  deps: Deps,
  { typed, errors = {} }: { typed?: Record<string, string>; errors?: Errors },
  status = 200,
) {
  const inForce = await findRateTable(deps.db, deps.now())
  const newest = await findNewestVersion(deps.db)
  if (!inForce || !newest) throw new NotFound()
  const { version, body } = inForce
  return reply.page(
    'rates/show',
    {
      values: typed ?? fieldsOf(body),
      version,
      newest: newest.version,
      waiting: await findWaiting(deps.db, deps.now()),
      draftOpen: (await findDraft(deps.db)) !== undefined,
      table: body,
      inWords: tableInWords(body),
      finishes: offerableFinishes(body),
      extras: offerableExtras(body).map(extra => ({ ...extra, perWords: perInWords(extra.per, body.units) })),
      costsKnown: body.costs.crewHour !== null || body.finishes.some(finish => finish.materialCost !== null),
      settled: settledFigures(body),
      notLookedAt: viewNotLookedAt(await findNotLookedAt(deps.db, deps.now())),
      errors,
    },
    status,
  )
}
