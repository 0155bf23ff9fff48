import { randomUUID } from 'node:crypto'
import type { FastifyInstance, FastifyReply } from 'fastify'
import type { Deps } from '../deps.ts'
import { readTold } from '../estimate/reading/read-beds.ts'
import { say } from '../http/flash.ts'
import { languageOf } from '../http/language.ts'
import { FEW_A_MINUTE } from '../http/rate-limits.ts'
import { type Key, t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { findRateTable } from '../rates/queries.ts'
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
    const rates = await findRateTable(deps.db, deps.now())
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
    const rates = await findRateTable(deps.db, deps.now())
    if (!rates) return reply.redirect('/', 303)
    const [table, language] = [openTable(rates.body), languageOf(request)]
    const fields = (request.body ?? {}) as Record<string, unknown>
    const key = keyOf(fields.submissionKey)
    // Whatever changed in the rates since: what was taken in is so.
    const before = await findSent(deps, key)
    if (before) return showSent(reply, before, language)
    const form = readBedsForm(fields, table)
    const contact = readContact(fields, table.units)
    const reading = readTold(toldOf(form), table)
    if (!reading.ok) {
      const page = { ...viewBedsForm(form, table, language, true), carried: carriedContact(fields) }
      return reply.page('requests/form', page, 422)
    }

    const faults = contact.ok ? machineFault(fields) : contact.faults
    const news = againstShown(fields, reading.job, table)
    if (!contact.ok || news || Object.keys(faults).length > 0) {
      const typed = contact.ok ? contact.values : contact.typed
      const page = viewContact(form, reading.job, typed, key, table, language)
      const errors = inWords(news ? { ...faults, '': news } : faults, language)
      return reply.page('requests/contact', { ...page, errors }, 422)
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

// People don't see this field; a program that fills every field in does. Nothing is lost if it was a person after all.
function machineFault(fields: Record<string, unknown>): Record<string, Key> {
  return fields.keepEmpty ? { '': 'contact.machine' } : {}
}

function inWords(faults: Record<string, Key | undefined>, language: Language): Record<string, string> {
  const words = Object.entries(faults).map(([field, key]) => [field, t(language, key!)])
  return Object.fromEntries(words)
}
