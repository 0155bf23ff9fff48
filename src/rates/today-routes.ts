import type { FastifyInstance } from 'fastify'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { NoneToPick, requireFinish, setToday } from './new-price.ts'
import { findRateTable } from './queries.ts'
import { takeBack } from './take-back.ts'
import { readToday } from './today-form.ts'
import { showFinishes, showJobsTouched, showPrices } from './today-page.ts'

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
    const inForce = await findRateTable(deps.db, deps.now())
    if (!inForce) throw new NotFound()
    const fields = new FormFields(request.body)
    const version = fields.carried('version')
    const reading = readToday(fields, requireFinish(inForce.body, slug), inForce.body)
    const { version: _, ...kept } = fields.typed
    if (!reading.ok)
      return showPrices(deps, reply, slug, {
        typed: kept,
        errors: reading.errors,
        status: 422,
        version,
        asked: reading.asked,
      })
    try {
      const made = await setToday(deps, requireAccount(request).id, version, slug, reading.values)
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

  app.post<{ Params: { finish: string } }>(
    '/rates/today/:finish/take-back',
    owner,
    async (request, reply) => {
      const slug = request.params.finish
      const version = new FormFields(request.body).carried('version')
      await takeBack(deps, requireAccount(request).id, slug, version)
      say(reply, 'Taken back. The earlier price applies again.')
      return reply.redirect(`/rates/today/${slug}`, 303)
    },
  )

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

const NONE_LEFT = 'Then homeowners couldn’t pick any material. The others are sold out too, or not shown.'
