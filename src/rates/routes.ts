import type { FastifyInstance, FastifyReply } from 'fastify'
import type { Deps } from '../deps.ts'
import { cautionName } from '../estimate/table/caution.ts'
import { wageCost } from '../estimate/table/crew.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { costedAs } from '../estimate/table/sold.ts'
import { bulkName } from '../estimate/units/unit-of.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { type Difference, differenceOf } from './csv/difference.ts'
import { type SectionGroup, sectionGroups } from './draft/sections-of.ts'
import { requireDraftState } from './draft/state.ts'
import { fieldsOf, type Handful, offerableExtras, offerableFinishes, withHandful } from './handful.ts'
import { readRates } from './handful-form.ts'
import { findNotLookedAt } from './looked-at.ts'
import { type NotLookedAt, viewNotLookedAt } from './not-looked-at.ts'
import { findNewestVersion, findRateTable } from './queries.ts'
import { changeRates } from './rates.ts'
import { perInWords, rateUnitInWords, sizesInWords } from './start/rate-words.ts'
import { type Settled, settledFigures } from './start/start-figures.ts'
import { findWaiting, type Waiting } from './versions/waiting.ts'

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
      /** "cubic yard" or "cubic meter". */
      bulk: string
      /** The sizes of job with rates of their own, in words. */
      sizes: string[]
      finishes: {
        slug: string
        name: { en: string }
        packs: unknown[]
        perWords: string
        costWords: string
      }[]
      extras: { slug: string; name: { en: string }; perWords: string }[]
      costsKnown: boolean
      /** All the sections of the draft, or of the one that would begin. */
      groups: SectionGroup[]
      settled: Settled[]
      /** The warnings that are shown. */
      cautions: { name: string; figure: string; source: string }[]
      /** Where somebody saved meanwhile: what saving what was typed would change now. */
      differences: Difference[]
      notLookedAt: NotLookedAt
    }
  }
}

export function ratesRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/rates', { config: { access: 'owner' } }, (_request, reply) => showRates(reply, deps, {}))

  app.post('/rates', { config: { access: 'owner' } }, async (request, reply) => {
    const inForce = await findRateTable(deps.db, deps.now())
    if (!inForce) throw new NotFound()
    const fields = new FormFields(request.body)
    const extras = offerableExtras(inForce.body).map(extra => extra.slug)
    const reading = readRates(fields, offerableFinishes(inForce.body), extras)
    if (!reading.ok) return showRates(reply, deps, reading, 422)
    const { version, handful } = reading.values
    try {
      const made = await changeRates(deps, requireAccount(request).id, version, handful)
      say(
        reply,
        made ? `Saved: version ${made} is in force.` : 'Nothing was different, so nothing was saved.',
      )
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      const { version: _old, ...kept } = fields.typed
      return showRates(reply, deps, { typed: kept, errors: { '': t('en', error.key) }, handful }, 409)
    }
    return reply.redirect('/rates', 303)
  })
}

/** The page of the rates, with what was typed and refused when it is shown again. */
export async function showRates(
  reply: FastifyReply,
  deps: Deps,
  { typed, errors = {}, handful }: { typed?: Typed; errors?: Errors; handful?: Handful },
  status = 200,
) {
  const inForce = await findRateTable(deps.db, deps.now())
  const newest = await findNewestVersion(deps.db)
  if (!inForce || !newest) throw new NotFound()
  const { version, body } = inForce
  const draft = await requireDraftState(deps.db)
  return reply.page(
    'rates/show',
    {
      values: typed ?? fieldsOf(body),
      version,
      newest: newest.version,
      waiting: await findWaiting(deps.db, deps.now()),
      draftOpen: draft.saved !== null,
      groups: sectionGroups(draft.body),
      table: body,
      bulk: bulkName(body),
      sizes: sizesInWords(body),
      finishes: offerableFinishes(body).map(finish => ({
        ...finish,
        perWords: `per ${rateUnitInWords(finish, body)}`,
        costWords: rateUnitInWords(costedAs(finish), body),
      })),
      extras: offerableExtras(body).map(extra => ({ ...extra, perWords: perInWords(extra.per, body.units) })),
      costsKnown: wageCost(body) !== null || body.finishes.some(finish => finish.materialCost !== null),
      settled: settledFigures(body),
      cautions: body.cautions
        .filter(({ shown }) => shown)
        .map(({ code, figure = '', source }) => ({ name: cautionName(code), figure, source })),
      differences: handful ? differenceOf(body, withHandful(body, handful)) : [],
      notLookedAt: viewNotLookedAt(await findNotLookedAt(deps.db, deps.now())),
      errors,
    },
    status,
  )
}
