import { randomUUID } from 'node:crypto'
import type { FastifyInstance, FastifyReply } from 'fastify'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { requireAccount } from '../http/signed-in.ts'
import { requireStanding } from '../rates/standing.ts'
import { keyOf } from './contact-routes.ts'
import { finishChoices, readPutIn } from './put-in-form.ts'
import { sendQuoteRequest } from './quote-request.ts'

declare module '../http/render.ts' {
  interface Views {
    'requests/put-in': PutInPage
  }
}

/** The staff's own form for what is told on the phone. */
export interface PutInPage {
  submissionKey: string
  finishes: { value: string; label: string }[]
  values: Typed
}

const OFFICE = { config: { access: 'office' } } as const

/** Putting a request in for somebody who phones. */
export function putInRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/put-in', OFFICE, (_request, reply) => show(reply, {}, {}, randomUUID()))

  app.post('/put-in', OFFICE, async (request, reply) => {
    const { rates, business } = await requireStanding(deps)
    const fields = new FormFields(request.body)
    const submissionKey = keyOf(fields.text('submissionKey'))
    const reading = readPutIn(fields, business.country, rates.body)
    if (!reading.ok) return show(reply, reading.typed, reading.errors, submissionKey)
    const { contact, told, language } = reading.values
    const doer = { kind: 'staff', accountId: requireAccount(request).id } as const
    const sending = { ...contact, told, language, submissionKey }
    const { number } = await sendQuoteRequest(deps, sending, undefined, doer)
    say(reply, `${number} is in the queue.`)
    return reply.redirect(`/put-in/${number}`, 303)
  })

  async function show(reply: FastifyReply, values: Typed, errors: Errors, submissionKey: string) {
    const { rates } = await requireStanding(deps)
    const page = { submissionKey, finishes: finishChoices(rates.body), values, errors, here: '/put-in' }
    return reply.page('requests/put-in', page, Object.keys(errors).length > 0 ? 422 : 200)
  }
}
