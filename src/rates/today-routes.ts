import type { FastifyInstance } from 'fastify'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { NoneToPick, requireFinish, setToday, type Today } from './new-price.ts'
import { type PricesGiven, pricesOf } from './pack-prices.ts'
import { findRateTable } from './queries.ts'
import { showFinishes, showJobsTouched, showPrices } from './today-page.ts'

const PRICE_PLACES = 4
const owner = { config: { access: 'owner' } } as const

/** At the yard, on a phone: a finish costs something else from today on. */
export function todayRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/rates/today', owner, (_request, reply) => showFinishes(deps, reply))

  app.get<{ Params: { finish: string } }>('/rates/today/:finish', owner, (request, reply) =>
    showPrices(deps, reply, request.params.finish),
  )

  app.post<{ Params: { finish: string } }>('/rates/today/:finish', owner, async (request, reply) => {
    const slug = request.params.finish
    const path = `/rates/today/${slug}`
    const { said, version, errors, typed } = await readToday(deps, slug, request.body)
    const { version: _, ...kept } = typed
    if (Object.keys(errors).length > 0)
      return showPrices(deps, reply, slug, { typed: kept, errors, status: 422, version })
    try {
      const made = await setToday(deps, requireAccount(request).id, version, slug, said)
      say(reply, made ? `Saved: version ${made}.` : 'Nothing was different, so nothing was saved.')
      return reply.redirect(made ? `${path}/jobs?version=${made}` : path, 303)
    } catch (error) {
      if (error instanceof NoneToPick)
        return showPrices(deps, reply, slug, {
          typed: kept,
          errors: { soldOut: NONE_LEFT },
          status: 422,
          version,
        })
      if (!(error instanceof Conflict)) throw error
      return showPrices(deps, reply, slug, { typed: kept, errors: { '': t('en', error.key) }, status: 409 })
    }
  })

  app.get<{ Params: { finish: string }; Querystring: { version?: unknown } }>(
    '/rates/today/:finish/jobs',
    owner,
    (request, reply) => {
      const version = String(request.query.version)
      if (!/^\d{1,9}$/.test(version)) throw new NotFound()
      return showJobsTouched(deps, reply, request.params.finish, Number(version))
    },
  )
}

const NONE_LEFT =
  'Then homeowners could pick no finish at all: the others are sold out too, or are not shown to them.'

async function readToday(deps: Deps, slug: string, body: unknown) {
  const inForce = await findRateTable(deps.db, deps.now())
  if (!inForce) throw new NotFound()
  const fields = new FormFields(body)
  const prices: PricesGiven = {}
  for (const { name, each } of pricesOf(requireFinish(inForce.body, slug), inForce.body.units)) {
    // What isn’t known may stay so: it may only be sold out.
    if (each === '' && fields.text(name) === '') continue
    prices[name] = fields.figure(name, PRICE_PLACES, 'the price') ?? ''
  }
  const said: Today = { prices, soldOut: fields.text('soldOut') === 'yes' }
  return { said, version: Number(fields.text('version')), errors: fields.errors, typed: fields.typed }
}
