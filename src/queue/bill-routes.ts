import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { readBillWanted } from '../billing/form.ts'
import { makeBill } from '../billing/make-bill.ts'
import { remindOfBill } from '../billing/remind.ts'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { dayOf } from '../lib/dates.ts'
import { readBillPayment, readGivenBack, readReturned } from '../payments/bill-form.ts'
import { giveBack, receivePayment } from '../payments/pay.ts'
import { returnCheck, takeChecksAgain, waiveFee } from '../payments/returned-check.ts'
import { requireRequestId } from '../requests/queries.ts'
import { showRequest } from './request-page.ts'

const OFFICE = { config: { access: 'office' } } as const

interface OfRequest {
  Params: { number: string; of?: string }
}

type Posted = FastifyRequest<OfRequest>

/** The bill of a job that is done, and all money for it: each is a post from the page of its request. */
export function billOfRequestRoutes(app: FastifyInstance, deps: Deps): void {
  app.post<OfRequest>('/queue/:number/bill', OFFICE, async (request, reply) => {
    const fields = new FormFields(request.body)
    const reading = readBillWanted(fields)
    if (!reading.ok) return showRequest(deps, reply, request.params.number, reading)
    const { values } = reading
    if (fields.text('do') === 'look')
      return showRequest(deps, reply, request.params.number, { typed: fields.typed, added: values.added })
    try {
      const id = await requireRequestId(deps.db, request.params.number)
      const bill = await makeBill(deps, requireAccount(request).id, id, values)
      say(reply, `${bill} is made, and goes to the customer.`)
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      const errors = { '': t('en', error.key, error.params) }
      return showRequest(deps, reply, request.params.number, {
        ...{ errors, typed: fields.typed, added: values.added },
      })
    }
    return reply.redirect(`/queue/${request.params.number}`, 303)
  })

  posts('/queue/:number/payment', readBillPayment, (by, id, paid) => receivePayment(deps, by, id, paid), {
    said: 'The payment is noted.',
  })
  posts('/queue/:number/give-back', readGivenBack, (by, id, back) => giveBack(deps, by, id, back), {
    said: 'That’s noted.',
  })
  posts(
    '/queue/:number/payments/:of/returned',
    (fields, today, of) => readReturned(fields, of, today),
    (by, id, check) => returnCheck(deps, by, id, check),
    { said: 'The check is undone, and the customer is told.' },
  )
  posts('/queue/:number/fees/:of/waive', withoutFields, (by, id, { of }) => waiveFee(deps, by, id, of), {
    said: 'The fee is let go.',
  })
  posts('/queue/:number/checks-again', withoutFields, (by, id) => takeChecksAgain(deps, by, id), {
    said: 'You take their checks again.',
  })
  posts(
    '/queue/:number/bill/remind',
    fields => fields.reading({ before: fields.carried('before') }),
    (by, id, { before }) => remindOfBill(deps, by, id, before),
    { said: 'The reminder goes out.' },
  )

  // A page that is behind is shown as things stand now, with why.
  function posts<Values>(
    path: string,
    read: (fields: FormFields, today: string, of: number) => FormReading<Values>,
    act: (accountId: number, quoteRequestId: number, values: Values) => Promise<void>,
    { said }: { said: string },
  ): void {
    app.post<OfRequest>(path, OFFICE, async (request: Posted, reply: FastifyReply) => {
      const { number, of = '' } = request.params
      const id = await requireRequestId(deps.db, number)
      const today = dayOf(deps.now(), (await requireBusiness(deps.db)).time_zone)
      const reading = read(new FormFields(request.body), today, Number(/^\d{1,15}$/.exec(of)?.[0] ?? 0))
      if (!reading.ok) return showRequest(deps, reply, number, reading)
      try {
        await act(requireAccount(request).id, id, reading.values)
      } catch (error) {
        if (!(error instanceof Conflict)) throw error
        return showRequest(deps, reply, number, { errors: { '': t('en', error.key, error.params) } })
      }
      say(reply, said)
      return reply.redirect(`/queue/${number}`, 303)
    })
  }
}

function withoutFields(fields: FormFields, _today: string, of: number): FormReading<{ of: number }> {
  return fields.reading({ of })
}
