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
import { findRateTable } from '../rates/queries.ts'
import { carriedContact, readContact, typedContact } from './contact-form.ts'
import { againstShown } from './contact-view.ts'
import { queryOf, readBedsForm, toldOf } from './form.ts'
import { openTable } from './open-table.ts'
import { findSent, type Sent, sendQuoteRequest } from './quote-request.ts'
import { unitsOfForm } from './units.ts'
import { drawForm, type Post, withinBudget, workOut } from './within-budget.ts'

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i

/** Asking who and where, and taking the quote request in. */
export function contactRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/request', { config: { access: 'open' } }, async (request, reply) => {
    const rates = await findRateTable(deps.db, deps.now())
    if (!rates) return reply.redirect('/', 303)
    const table = openTable(rates.body)
    const query = request.query as Record<string, unknown>
    const units = unitsOfForm(query, 'contact')
    return withinBudget(deps, request, reply, units, async () => {
      const form = readBedsForm(query, table)
      const contact = { ...typedContact({}), postcode: form.postcode }
      const asked = {
        form,
        contact,
        submissionKey: keyOf(query.key),
        errors: {},
        around: await reply.around(),
      }
      const markup = await workOut(deps, units, 'contact', asked, table)
      return markup ? reply.drawn(markup) : reply.redirect(`/?${queryOf(form)}`, 303)
    })
  })

  app.get('/requests', { config: { access: 'open' } }, async (_request, reply) => reply.redirect('/', 303))

  app.post('/requests', { config: { access: 'open', ...FEW_A_MINUTE } }, async (request, reply) => {
    const rates = await findRateTable(deps.db, deps.now())
    if (!rates) return reply.redirect('/', 303)
    const fields = new FormFields(request.body)
    const key = keyOf(fields.typed.submissionKey)
    // Whatever changed in the rates since: what was taken in is so.
    const before = await findSent(deps, key)
    if (before) return showSent(reply, before, languageOf(request))
    const units = unitsOfForm(request.body, 'contact')
    const table = openTable(rates.body)
    return withinBudget(deps, request, reply, units, () =>
      takeIn({ deps, request, reply, table, units }, fields, key),
    )
  })
}

async function takeIn(post: Post, fields: FormFields, submissionKey: string): Promise<FastifyReply> {
  const { deps, request, reply, table, units } = post
  const { typed } = fields
  const form = readBedsForm(request.body, table)
  const reading = readTold(toldOf(form), table)
  if (!reading.ok)
    return drawForm(deps, reply, units, { form, showFaults: true, carried: carriedContact(typed) }, table)
  const language = languageOf(request)
  const translate = translator(language)
  const news = againstShown(typed, reading.job, table)
  if (news) fields.fault('', translate(news))
  const contact = readContact(fields, table.units, translate)
  // People don't see this field; a program that fills every field in does. Nothing is lost if it was a person after all.
  if (typed.keepEmpty && contact.ok) fields.fault('', translate('contact.machine'))
  const { errors } = fields
  if (!contact.ok || Object.keys(errors).length > 0) {
    const asked = { form, contact: typedContact(typed), submissionKey, errors, around: await reply.around() }
    return reply.drawn(await workOut(deps, units, 'contact', asked, table), 422)
  }
  const told = toldOf(form)
  const sent = await sendQuoteRequest(deps, { ...contact.values, told, submissionKey, language })
  return showSent(reply, sent, language)
}

function showSent(reply: FastifyReply, { number, ownPath, repeated }: Sent, language: Language) {
  say(reply, t(language, repeated ? 'contact.sent-before' : 'contact.sent', { number }))
  return reply.redirect(ownPath, 303)
}

/** The key of a submission as it was sent along, else a new one. */
export function keyOf(given: unknown): string {
  return typeof given === 'string' && UUID.test(given) ? given.toLowerCase() : randomUUID()
}
