import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { readCreditReason } from './form.ts'
import { creditBill } from './make-bill.ts'
import { sendBillPaper } from './paper.ts'
import { type BillRow, requireBill } from './queries.ts'
import { type BillView, viewBill } from './view.ts'

declare module '../http/render.ts' {
  interface Views {
    'billing/show': {
      bill: BillView
      row: BillRow
      /** Whether it can be undone still. */
      mayCredit: boolean
      values: Typed
    }
  }
}

const OFFICE = { config: { access: 'office' } } as const

type OfBill = { Params: { bill: string } }

/** A bill or a credit memo by itself, on paper, and undone. */
export function billRoutes(app: FastifyInstance, deps: Deps): void {
  app.get<OfBill>('/bills/:bill', OFFICE, (request, reply) => show(request, reply))

  app.get<OfBill>('/bills/:bill/bill.pdf', OFFICE, async (request, reply) => {
    const bill = await requireBill(deps.db, request.params.bill)
    // By a name of its own: what is called a language is kept in a cookie, for other pages too.
    const language = (request.query as Typed).in === 'es' ? 'es' : 'en'
    return sendBillPaper(deps, reply, await requireBusiness(deps.db), bill, language)
  })

  app.post<OfBill>('/bills/:bill/credit', OFFICE, async (request, reply) => {
    const reading = readCreditReason(new FormFields(request.body))
    if (!reading.ok) return show(request, reply, reading)
    const { bill } = request.params
    try {
      const memo = await creditBill(deps, requireAccount(request).id, bill, reading.values.reason)
      say(
        reply,
        `${bill} is canceled by credit memo ${memo}. Mend the job if you need to, and bill it again.`,
      )
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      return show(request, reply, { errors: { '': t('en', error.key, error.params) } })
    }
    const { request_number: number } = await requireBill(deps.db, bill)
    return reply.redirect(`/queue/${number}`, 303)
  })

  async function show(
    request: FastifyRequest<OfBill>,
    reply: FastifyReply,
    again?: { errors: Errors; typed?: Typed },
  ) {
    const row = await requireBill(deps.db, request.params.bill)
    const bill = await viewBill(deps, await requireBusiness(deps.db), row, 'en')
    const mayCredit = row.kind === 'bill' && row.credited_by === null && !row.is_erased
    const { errors = {}, typed = {} } = again ?? {}
    return reply.page('billing/show', { bill, row, mayCredit, values: typed, errors }, again ? 422 : 200)
  }
}
