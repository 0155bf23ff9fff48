import { randomUUID } from 'node:crypto'
import type { FastifyInstance, FastifyReply } from 'fastify'
import type { Deps } from '../deps.ts'
import { readTold } from '../estimate/reading/read-beds.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import { FEW_A_MINUTE } from '../http/rate-limits.ts'
import { t, translator } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { carriedContact, readContact, typedContact } from './contact-form.ts'
import { againstShown, viewContact } from './contact-view.ts'
import { queryOf, readBedsForm, toldOf } from './form.ts'
import { viewBedsForm } from './form-view.ts'
import { openTable } from './open-table.ts'
import { findSent, type Sent, sendQuoteRequest } from './quote-request.ts'

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i

/** Asking who and where, and taking the quote request in. */
export function contactRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/request', { config: { access: 'open' } }, async (request, reply) => {
    const { rates } = await deps.standing.read()
    if (!rates) return reply.redirect('/', 303)
    const table = openTable(rates.body)
    const query = request.query as Record<string, unknown>
    const form = readBedsForm(query, table)
    const reading = readTold(toldOf(form), table)
    if (!reading.ok) return reply.redirect(`/?${queryOf(form)}`, 303)
    const contact = { ...typedContact({}), postcode: form.postcode }
    const page = viewContact(form, reading.job, contact, keyOf(query.key), table, languageOf(request))
    return reply.page('requests/contact', page)
  })

  app.get('/requests', { config: { access: 'open' } }, async (_request, reply) => reply.redirect('/', 303))

  app.post('/requests', { config: { access: 'open', ...FEW_A_MINUTE } }, async (request, reply) => {
    const { rates } = await deps.standing.read()
    if (!rates) return reply.redirect('/', 303)
    const [table, language] = [openTable(rates.body), languageOf(request)]
    const fields = new FormFields(request.body)
    const { typed } = fields
    const key = keyOf(typed.submissionKey)
    // Whatever changed in the rates since: what was taken in is so.
    const before = await findSent(deps, key)
    if (before) return showSent(reply, before, language)
    const form = readBedsForm(request.body, table)
    const reading = readTold(toldOf(form), table)
    if (!reading.ok) {
      const page = { ...viewBedsForm(form, table, language, true), carried: carriedContact(typed) }
      return reply.page('requests/form', page, 422)
    }

    const translate = translator(language)
    const news = againstShown(typed, reading.job, table)
    if (news) fields.fault('', translate(news))
    const contact = readContact(fields, table.units, translate)
    // People don't see this field; a program that fills every field in does. Nothing is lost if it was a person after all.
    if (typed.keepEmpty && contact.ok) fields.fault('', translate('contact.machine'))
    if (!contact.ok || Object.keys(fields.errors).length > 0) {
      const page = viewContact(form, reading.job, typedContact(typed), key, table, language)
      return reply.page('requests/contact', { ...page, errors: fields.errors }, 422)
    }
    const sent = await sendQuoteRequest(deps, {
      ...contact.values,
      told: toldOf(form),
      submissionKey: key,
      language,
    })
    return showSent(reply, sent, language)
  })
}

function showSent(reply: FastifyReply, { number, ownPath, repeated }: Sent, language: Language) {
  say(reply, t(language, repeated ? 'contact.sent-before' : 'contact.sent', { number }))
  return reply.redirect(ownPath, 303)
}

/** The key of a submission as it was sent along, else a new one. */
export function keyOf(given: unknown): string {
  return typeof given === 'string' && UUID.test(given) ? given.toLowerCase() : randomUUID()
}
