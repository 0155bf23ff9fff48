import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { readOrdering, readState } from './form.ts'
import { placeOrder, setOrder } from './order.ts'
import { type OrdersPage, viewOrders } from './page.ts'

const OFFICE = { config: { access: 'office' } } as const
const PAGE = '/orders'

declare module '../http/render.ts' {
  interface Views {
    'orders/list': OrdersPage & { values: Typed }
  }
}

const SAID = {
  ordered: 'Noted as ordered.',
  confirmed: 'Noted as confirmed.',
  delivered: 'Noted as there.',
  canceled: 'Noted as canceled.',
}

type OfOrder = FastifyRequest<{ Params: { id: string } }>

/** What is to be ordered by when, and what became of each order. */
export function orderRoutes(app: FastifyInstance, deps: Deps): void {
  app.get(PAGE, OFFICE, (_request, reply) => show(reply))

  app.post(PAGE, OFFICE, async (request, reply) => {
    const reading = readOrdering(new FormFields(request.body))
    if (!reading.ok) return show(reply, { typed: reading.typed, errors: reading.errors, status: 422 })
    return answer(reply, 'ordered', () => placeOrder(deps, requireAccount(request).id, reading.values))
  })

  app.post(`${PAGE}/:id`, OFFICE, async (request: OfOrder, reply) => {
    const id = Number(/^[1-9]\d{0,14}$/.exec(request.params.id)?.[0] ?? 0)
    if (id === 0) throw new NotFound()
    const reading = readState(new FormFields(request.body), id)
    if (!reading.ok) return show(reply, { typed: reading.typed, errors: reading.errors, status: 422 })
    const { state } = reading.values
    return answer(reply, state, () => setOrder(deps, requireAccount(request).id, id, reading.values))
  })

  async function answer(reply: FastifyReply, state: keyof typeof SAID, act: () => Promise<void>) {
    try {
      await act()
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      return show(reply, { typed: {}, errors: { '': t('en', error.key, error.params) }, status: 409 })
    }
    say(reply, SAID[state])
    return reply.redirect(PAGE, 303)
  }

  async function show(reply: FastifyReply, again?: { typed: Typed; errors: Errors; status: number }) {
    const page = await viewOrders(deps, await requireBusiness(deps.db))
    const { typed = {}, errors = {}, status } = again ?? {}
    return reply.page('orders/list', { ...page, values: typed, errors }, status)
  }
}
