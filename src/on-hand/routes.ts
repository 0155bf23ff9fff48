import { randomUUID } from 'node:crypto'
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound, Refusal } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t, translator } from '../language/catalogue.ts'
import { findRateTable } from '../rates/queries.ts'
import { countOnHand } from './count.ts'
import { readCount, readPut } from './form.ts'
import { moveOnHand } from './move.ts'
import { nameOfThing, packsListed, unitsOfPack } from './pack-words.ts'
import { type OnePackPage, type OnHandPage, viewOnePack, viewOnHand } from './page.ts'

const STAFF = { config: { access: 'staff' } } as const
const PAGE = '/on-hand'

declare module '../http/render.ts' {
  interface Views {
    'on-hand/list': OnHandPage & { key: string; values: Typed }
    'on-hand/pack': OnePackPage & { values: Typed }
  }
}

interface Again {
  values?: Typed
  errors?: Errors
  status?: number
}

type OfPack = FastifyRequest<{ Params: { id: string } }>

/** What is left of each pack: the list, one pack with its history, and both ways to correct it by hand. */
export function onHandRoutes(app: FastifyInstance, deps: Deps): void {
  app.get(PAGE, STAFF, (request, reply) => showList(request, reply))

  app.post(PAGE, STAFF, async (request, reply) => {
    const language = languageOf(request)
    const { body: table } = await requireRates(deps)
    const reading = readPut(new FormFields(request.body), packsListed(table), translator(language))
    if (!reading.ok)
      return showList(request, reply, { values: reading.typed, errors: reading.errors, status: 422 })
    const move = reading.values
    try {
      const made = { at: deps.now(), by: requireAccount(request).id }
      await deps.db.transaction().execute(trx => moveOnHand(trx, [move], made))
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      return showList(request, reply, { errors: { '': t(language, error.key, error.params) }, status: 409 })
    }
    const what = `${nameOfThing(move, table, language)}, ${unitsOfPack(move.units, move, table, language)}`
    say(reply, t(language, 'hand.said-put', { what }))
    return reply.redirect(PAGE, 303)
  })

  app.get(`${PAGE}/:id`, STAFF, (request: OfPack, reply) => showPack(request, reply))

  app.post(`${PAGE}/:id`, STAFF, async (request: OfPack, reply) => {
    const language = languageOf(request)
    const fields = new FormFields(request.body)
    const reading = readCount(fields, translator(language))
    const refuse = (status: number, errors: Errors) =>
      showPack(request, reply, { values: fields.typed, errors, status })
    if (!reading.ok) return refuse(422, reading.errors)
    const id = idOf(request)
    try {
      await countOnHand(deps, requireAccount(request).id, id, reading.values)
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      return refuse(409, { units: t(language, error.key, error.params) })
    }
    const { thing, units } = await pageOfPack(request)
    say(reply, t(language, 'hand.said-counted', { what: thing, units }))
    return reply.redirect(PAGE, 303)
  })

  async function showList(request: FastifyRequest, reply: FastifyReply, again: Again = {}) {
    const { body } = await requireRates(deps)
    const page = await viewOnHand(deps, body, languageOf(request))
    const { values = {}, errors = {}, status } = again
    return reply.page('on-hand/list', { ...page, key: randomUUID(), values, errors }, status)
  }

  async function showPack(request: OfPack, reply: FastifyReply, again: Again = {}) {
    const page = await pageOfPack(request)
    const { values = {}, errors = {}, status } = again
    return reply.page('on-hand/pack', { ...page, values, errors }, status)
  }

  async function pageOfPack(request: OfPack) {
    const business = await requireBusiness(deps.db)
    const { body } = await requireRates(deps)
    const before = new FormFields(request.query).carried('before') || null
    return viewOnePack(deps, business, body, languageOf(request), { id: idOf(request), before })
  }
}

async function requireRates(deps: Deps) {
  const rates = await findRateTable(deps.db, deps.now())
  if (!rates) throw new Refusal(503, 'error.not-open')
  return rates
}

function idOf({ params }: OfPack): number {
  const id = Number(/^[1-9]\d{0,14}$/.exec(params.id)?.[0] ?? 0)
  if (id === 0) throw new NotFound()
  return id
}
