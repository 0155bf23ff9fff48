import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { dayOf } from '../lib/dates.ts'
import { readDeposit, readSettling } from '../payments/form.ts'
import { receiveDeposit, undoPayment } from '../payments/receive.ts'
import { settleDeposit } from '../payments/settle.ts'
import { requireRequestId } from '../requests/queries.ts'
import { showRequest } from './request-page.ts'

const OFFICE = { config: { access: 'office' } } as const

interface OfRequest {
  Params: { number: string }
}

/** A deposit as it is noted, taken back, and settled at the end. */
export function paymentRoutes(app: FastifyInstance, deps: Deps): void {
  app.post<OfRequest>('/queue/:number/deposit', OFFICE, async (request, reply) => {
    const { number } = request.params
    const id = await requireRequestId(deps.db, number)
    const reading = readDeposit(new FormFields(request.body), await today(deps))
    if (!reading.ok) return showRequest(deps, reply, number, reading)
    const act = () => receiveDeposit(deps, requireAccount(request).id, id, reading.values)
    return orShow(deps, request, reply, { said: 'The deposit is noted.', act })
  })

  app.post<{ Params: { number: string; payment: string } }>(
    '/queue/:number/payments/:payment/undo',
    OFFICE,
    async (request, reply) => {
      const { number, payment } = request.params
      const id = await requireRequestId(deps.db, number)
      const paymentId = Number(/^\d{1,15}$/.exec(payment)?.[0] ?? 0)
      const act = () => undoPayment(deps, requireAccount(request).id, id, paymentId)
      return orShow(deps, request, reply, { said: 'That payment is undone.', act })
    },
  )

  app.post<OfRequest>('/queue/:number/deposit/settle', OFFICE, async (request, reply) => {
    const { number } = request.params
    const id = await requireRequestId(deps.db, number)
    const reading = readSettling(new FormFields(request.body), await today(deps))
    if (!reading.ok) return showRequest(deps, reply, number, reading)
    const act = () => settleDeposit(deps, requireAccount(request).id, id, reading.values)
    return orShow(deps, request, reply, { said: 'The deposit is settled.', act })
  })
}

async function today({ db, now }: Deps): Promise<string> {
  return dayOf(now(), (await requireBusiness(db)).time_zone)
}

// A page that is behind is shown as things stand now, with why.
async function orShow(
  deps: Deps,
  request: FastifyRequest,
  reply: FastifyReply,
  { said, act }: { said: string; act: () => Promise<void> },
): Promise<FastifyReply> {
  const { number } = request.params as OfRequest['Params']
  try {
    await act()
  } catch (error) {
    if (!(error instanceof Conflict)) throw error
    return showRequest(deps, reply, number, { errors: { '': t('en', error.key, error.params) } })
  }
  say(reply, said)
  return reply.redirect(`/queue/${number}`, 303)
}
