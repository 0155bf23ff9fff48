import type { FastifyInstance } from 'fastify'
import { requireAccount } from '../account/session.ts'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { nestFields } from '../http/nested-fields.ts'
import { newestRevision } from '../queue/queries.ts'
import { requireRequest } from '../requests/request-queries.ts'
import { makeQuote } from './make-quote.ts'
import { priceRequest } from './pricing.ts'
import { readQuoteForm } from './quote-form.ts'
import { showQuoteForm } from './quote-page.ts'
import { readTerms } from './quote-terms.ts'

const CHANGED =
  'The rates or the beds have changed since this page was opened. The sums below are the new ones: look at them again.'

const OVERTAKEN =
  'Another revision was made since this page was opened. What you make now comes after it and replaces it.'

/** Works the sums out again, or makes the quote. */
export function quoteRoute(app: FastifyInstance, deps: Deps): void {
  app.post<{ Params: { number: string } }>(
    '/queue/:number/quote',
    { config: { access: 'owner' } },
    async (request, reply) => {
      const { number } = request.params
      const wanted = await requireRequest(deps.db, number)
      const form = nestFields(request.body)
      const priced = await priceRequest(deps.db, deps.now(), wanted, readTerms(form).terms)
      const reading = readQuoteForm(form, priced.price)
      const confirmed = form.do === 'confirm'
      const fresh = reading.wanted.revision > (await newestRevision(deps.db, wanted.id))
      if (fresh && reading.wanted.basis !== priced.basis) reading.errors[''] = CHANGED
      if (!fresh && !confirmed) reading.errors[''] = OVERTAKEN
      if (!confirmed || Object.keys(reading.errors).length > 0)
        return showQuoteForm(deps, reply, number, reading)
      const made = await makeQuote(deps, requireAccount(request).id, wanted.id, reading.wanted)
      if (made.repeated) {
        say(reply, 'That quote was made already: nothing was done twice.')
        return reply.redirect(`/queue/${number}`, 303)
      }
      const mailed = wanted.email !== '' && deps.config.smtpUrl !== undefined
      say(reply, `The quote is made${mailed ? ' and on its way by mail' : ''}. Hand the link over.`)
      return reply.redirect(`/queue/${number}/hand-over`, 303)
    },
  )
}
