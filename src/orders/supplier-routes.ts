import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound, Refusal } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { nameOfPack, nameOfThing } from '../on-hand/pack-words.ts'
import { findRateTable } from '../rates/queries.ts'
import { readSupplier } from './form.ts'
import { findSuppliers, orderable, removeSupplier, saveSupplier, soldAs, USUAL_LEAD } from './suppliers.ts'

const OFFICE = { config: { access: 'office' } } as const
const PAGE = '/orders/suppliers'

declare module '../http/render.ts' {
  interface Views {
    'orders/supplier': {
      /** Null for a new one. */
      id: number | null
      name: string
      others: { id: number; name: string }[]
      packs: { value: string; label: string; ticked: boolean }[]
      values: Typed
    }
  }
}

type OfSupplier = FastifyRequest<{ Params: { id: string } }>

/** The suppliers that the owner keeps: phone, cutoff, yard hours, days before, and what they sell. */
export function supplierRoutes(app: FastifyInstance, deps: Deps): void {
  app.get(PAGE, OFFICE, (_request, reply) => show(reply, null))
  app.get(`${PAGE}/:id`, OFFICE, (request: OfSupplier, reply) => show(reply, idOf(request)))
  app.post(PAGE, OFFICE, (request, reply) => save(request, reply, null))
  app.post(`${PAGE}/:id`, OFFICE, (request: OfSupplier, reply) => save(request, reply, idOf(request)))

  app.post(`${PAGE}/:id/remove`, OFFICE, async (request: OfSupplier, reply) => {
    await removeSupplier(deps, idOf(request))
    say(reply, 'They are off the list. What was ordered from them stays.')
    return reply.redirect(PAGE, 303)
  })

  async function save(request: FastifyRequest, reply: FastifyReply, id: number | null) {
    const known = orderable(await requireTable(deps)).map(soldAs)
    const fields = new FormFields(request.body)
    const reading = readSupplier(fields, known)
    const again = (errors: Errors, status: number) =>
      show(reply, id, { typed: fields.typed, sells: fields.ticks('sells'), errors, status })
    if (!reading.ok) return again(reading.errors, 422)
    try {
      await saveSupplier(deps, requireAccount(request).id, id, reading.values)
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      return again({ name: t('en', error.key, error.params) }, 409)
    }
    say(reply, `${reading.values.name} is kept.`)
    return reply.redirect(PAGE, 303)
  }

  async function show(
    reply: FastifyReply,
    id: number | null,
    again?: { typed: Typed; sells: string[]; errors: Errors; status: number },
  ) {
    const table = await requireTable(deps)
    const all = await findSuppliers(deps.db)
    const own = all.find(one => one.id === id)
    if (id !== null && !own) throw new NotFound()
    const {
      name = '',
      phone = '',
      cutoff = '',
      hours = '',
      leadDays = USUAL_LEAD,
      keeps,
      sells = [],
    } = own ?? {}
    const ticked = new Set(again?.sells ?? sells)
    const page = {
      id,
      name,
      others: all.map(({ id, name }) => ({ id, name })),
      packs: orderable(table).map(pack => ({
        value: soldAs(pack),
        label: [nameOfThing(pack, table, 'en'), pack.pack && nameOfPack(pack, table, 'en')]
          .filter(Boolean)
          .join(': '),
        ticked: ticked.has(soldAs(pack)),
      })),
      values: again?.typed ?? {
        name,
        phone,
        cutoff,
        hours,
        leadDays: String(leadDays),
        keeps: keeps ? 'yes' : '',
      },
    }
    return reply.page('orders/supplier', { ...page, errors: again?.errors ?? {} }, again?.status)
  }
}

async function requireTable(deps: Deps) {
  const rates = await findRateTable(deps.db, deps.now())
  if (!rates) throw new Refusal(503, 'error.not-open')
  return rates.body
}

function idOf({ params }: OfSupplier): number {
  const id = Number(/^[1-9]\d{0,14}$/.exec(params.id)?.[0] ?? 0)
  if (id === 0) throw new NotFound()
  return id
}
