import { randomUUID } from 'node:crypto'
import type { FastifyInstance, FastifyReply } from 'fastify'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { inSameLanguage, languageOf } from '../http/language.ts'
import { FEW_A_MINUTE } from '../http/rate-limits.ts'
import { fieldsIn } from '../http/uploaded.ts'
import { t, translator } from '../language/catalogue.ts'
import { requireStanding } from '../rates/standing.ts'
import { showAsk, takeAsked } from './ask.ts'
import { begunOf } from './begun.ts'
import { readContact, typedContact } from './contact-form.ts'
import { drawContact, drawForm, type Post } from './draw.ts'
import { readBedsForm, toldOf } from './form.ts'
import { takeInWeighed } from './maybe-junk/take-in.ts'
import { openTable } from './open-table.ts'
import { readPhotos } from './photos/form.ts'
import { takePhotoForms } from './photos/routes.ts'
import { findSent, type TakenIn } from './quote-request.ts'
import { contentHash, markSender, numberSentBy } from './sent-before.ts'
import { unitsOfForm } from './units.ts'
import { wayOf } from './ways.ts'
import { MOST_SENT, unitsPosted, withinBudget, workOut } from './within-budget.ts'

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i

/** Asking who and where, and taking the quote request in. */
export function contactRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/request', { config: { access: 'open' } }, async (request, reply) => {
    const { rates } = await deps.standing.read()
    if (!rates) return reply.redirect('/', 303)
    const way = wayOf(new FormFields(request.query).text('as'))
    if (way) return showAsk({ deps, request, reply, way })
    const table = openTable(rates.body)
    const units = unitsOfForm(request.query, 'contact', table)
    return withinBudget(deps, request, reply, units, async () => {
      const form = readBedsForm(request.query, table)
      const contact = { ...typedContact({}), postcode: form.postcode }
      const submissionKey = randomUUID()
      const begun = begunOf(deps, submissionKey)
      const asked = { form, contact, submissionKey, begun, errors: {} }
      return drawContact({ deps, request, reply, table, units }, asked)
    })
  })

  app.get('/requests', { config: { access: 'open' } }, async (_request, reply) => reply.redirect('/', 303))

  const posted = { bodyLimit: MOST_SENT, config: { access: 'open', ...FEW_A_MINUTE } } as const
  app.register(async scope => {
    takePhotoForms(scope, deps)
    scope.post('/requests', posted, async (request, reply) => {
      const { rates } = await deps.standing.read()
      if (!rates) return reply.redirect('/', 303)
      const table = openTable(rates.body)
      const sent = fieldsIn(request.body)
      const way = wayOf(sent.as)
      const units = unitsOfForm(sent, 'taking', table) + unitsPosted(request)
      return withinBudget(deps, request, reply, units, async () => {
        const post = { deps, request, reply, table, units }
        if (!way) return takeIn(post, rates.id)
        const key = keyOf(sent.submissionKey)
        const taken = await takeAsked({ deps, request, reply, way }, key)
        return taken ? showSent(post, key, taken) : reply
      })
    })
  })
}

async function takeIn(post: Post, rateTableId: number): Promise<FastifyReply> {
  const { deps, request, table, units } = post
  const fields = new FormFields(request.body)
  const { typed } = fields
  const key = keyOf(typed.submissionKey)
  const form = readBedsForm(request.body, table)
  const told = toldOf(form)
  const language = languageOf(request)
  // Whatever changed in the rates since: what was taken in is so. A key by itself proves nothing, as it can be seen.
  const number = numberSentBy(request, deps, key)
  const before = await findSent(deps, { key, contentHash: contentHash(told, typed), number })
  if (before) return showSent(post, key, before)
  const { shown, shownPostcode } = typed
  const taking = await workOut(deps, units, 'taking', { told, shown, shownPostcode }, table)
  const { business } = await requireStanding(deps)
  const translate = translator(language, business.country)
  const asking = { most: business.photos_each, sender: 'stranger', say: translate } as const
  if (!taking) {
    const photos = await readPhotos(deps, request, fields, asking)
    return drawForm(post, { form, showFaults: true }, photos)
  }
  const { news, ...worked } = taking
  if (news) fields.fault(news === 'contact.not-served' ? 'postcode' : '', translate(news))
  const contact = readContact(fields, business.country, translate)
  const photos = await readPhotos(deps, request, fields, asking)
  const { errors } = fields
  if (!contact.ok || Object.keys(errors).length > 0) {
    const begun = begunOf(deps, key, typed.begun)
    const again = { form, contact: typedContact(typed), submissionKey: key, begun, photos, errors }
    return drawContact(post, again, 422)
  }
  const sending = { ...contact.values, told, submissionKey: key, language, photos: photos.kept }
  const sent = await takeInWeighed(deps, request, { typed, sending, worked: { rateTableId, ...worked } })
  return showSent(post, key, sent)
}

function showSent({ deps, request, reply }: Post, key: string, sent: TakenIn): FastifyReply {
  const { number, ownPath, repeated } = sent
  markSender(reply, deps, key, number)
  say(reply, t(languageOf(request), repeated ? 'contact.sent-before' : 'contact.sent', { number }))
  return reply.redirect(inSameLanguage(request, ownPath), 303)
}

/** The key of a submission as it was sent along, else a new one. */
export function keyOf(given: unknown): string {
  return typeof given === 'string' && UUID.test(given) ? given.toLowerCase() : randomUUID()
}
