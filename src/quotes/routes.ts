import type { FastifyInstance } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { dayOf } from '../lib/dates.ts'
import { findFirm } from '../places/firms.ts'
import { findJobCertificate, hasEnded } from '../places/job-certificate.ts'
import { requireRequest, requireRequestId } from '../requests/queries.ts'
import { endBookingLink, makeBookingLink } from './booking-link.ts'
import { canBeTogether, readChoices } from './choices-form.ts'
import { composeQuote } from './compose-quote.ts'
import { overCap, readConditions } from './conditions-form.ts'
import { readQuoteForm } from './form.ts'
import { type HandOverPage, showHandOver } from './hand-over.ts'
import { makeQuote } from './make-quote.ts'
import { noteSent } from './note-sent.ts'
import { type QuotePage, showQuoteForm } from './page.ts'
import { priceRequest } from './pricing.ts'
import { newestRevision } from './queries.ts'
import { withRoundTotal } from './round-total.ts'
import { readTerms } from './terms-form.ts'
import { showWorksheet, type WorksheetPage } from './worksheet-page.ts'

declare module '../http/render.ts' {
  interface Views {
    'quotes/price': QuotePage
    'quotes/hand-over': HandOverPage
    'quotes/worksheet': WorksheetPage
  }
}

const OFFICE = { config: { access: 'office' } } as const

interface OfRequest {
  Params: { number: string }
}

const CHANGED =
  'The rates or the beds changed since you opened this page. The amounts below are the new ones: please look again.'

const OVERTAKEN = 'Another quote was made since you opened this page. What you make now replaces it.'

/** The price of a request, the steps behind it, and its booking link. */
export function quoteRoutes(app: FastifyInstance, deps: Deps): void {
  app.get<OfRequest>('/queue/:number/quote', OFFICE, (request, reply) =>
    showQuoteForm(deps, reply, request.params.number),
  )

  app.get<OfRequest & { Querystring: { now?: string } }>(
    '/queue/:number/worksheet',
    OFFICE,
    (request, reply) => showWorksheet(deps, reply, request.params.number, request.query.now === '1'),
  )

  makingRoute(app, deps)
  linkRoutes(app, deps)
}

/** Works the sums out again, or makes the quote. */
function makingRoute(app: FastifyInstance, deps: Deps): void {
  app.post<OfRequest>('/queue/:number/quote', OFFICE, async (request, reply) => {
    const { number } = request.params
    const wanted = await requireRequest(deps.db, number)
    const fields = new FormFields(request.body)
    const priced = await priceRequest(deps.db, deps.now(), wanted, readTerms(fields))
    const choices = readChoices(fields, priced)
    const read = readQuoteForm(fields, priced.price, choices)
    const reading = withRoundTotal(fields, priced, read, wanted.customer_language)
    const business = await requireBusiness(deps.db)
    reading.wanted.conditions = readConditions(fields, business)
    const firm = await findFirm(deps.db, wanted.customer_head_id)
    const { exempt } = reading.wanted.terms
    const own = await findJobCertificate(deps.db, wanted.id)
    if (hasEnded(own, firm, exempt, dayOf(deps.now(), business.time_zone)))
      reading.errors.exempt = 'That certificate has expired. Take it out, or give the new one.'
    const over = overCap(
      reading.wanted.conditions,
      composeQuote(priced, reading.wanted).total,
      business.currency,
    )
    if (over) reading.errors.depositAmount = over
    const confirmed = fields.text('do') === 'confirm'
    if (choices && confirmed && !canBeTogether(choices, priced))
      reading.errors[''] = t('en', 'choose.together')
    const fresh = reading.wanted.revision > (await newestRevision(deps.db, wanted.id))
    if (fresh && reading.wanted.basis !== priced.basis) reading.errors[''] = CHANGED
    if (!fresh && !confirmed) reading.errors[''] = OVERTAKEN
    const isLive = request.headers['x-part'] === 'live'
    if (isLive || !confirmed || Object.keys(reading.errors).length > 0)
      return showQuoteForm(deps, reply, number, reading, isLive)
    const made = await orWhyNot(makeQuote(deps, requireAccount(request).id, wanted.id, reading.wanted))
    if (typeof made === 'string') {
      reading.errors[''] = made
      return showQuoteForm(deps, reply, number, reading)
    }
    if (made.repeated) {
      say(reply, 'That quote was already made.')
      return reply.redirect(`/queue/${number}`, 303)
    }
    const mailed = wanted.email !== '' && deps.config.smtpUrl !== undefined
    say(
      reply,
      `The quote is made${mailed ? ' and on its way by email. You can send the link yourself, too.' : '. Now send the link.'}`,
    )
    return reply.redirect(`/queue/${number}/hand-over`, 303)
  })
}

/** What the form says of itself, with all that was typed still in it. */
const SAID_ON_FORM = ['change.none', 'quote.accepted-meanwhile']

async function orWhyNot<T>(made: Promise<T>): Promise<T | string> {
  try {
    return await made
  } catch (error) {
    if (error instanceof Conflict && SAID_ON_FORM.includes(error.key)) return t('en', error.key, error.params)
    throw error
  }
}

function linkRoutes(app: FastifyInstance, deps: Deps) {
  app.get<OfRequest>('/queue/:number/hand-over', OFFICE, (request, reply) =>
    showHandOver(deps, reply, request.params.number),
  )

  app.post<OfRequest>('/queue/:number/booking-link', OFFICE, async (request, reply) => {
    const { number } = request.params
    const fields = new FormFields(request.body)
    const stood = fields.has('standing') ? fields.carried('standing') || null : undefined
    await makeBookingLink(deps, requireAccount(request).id, await requireRequestId(deps.db, number), stood)
    say(reply, 'Here is a new link. The old one no longer works.')
    return reply.redirect(`/queue/${number}/hand-over`, 303)
  })

  app.post<OfRequest>('/queue/:number/booking-link/sent', OFFICE, async (request, reply) => {
    const { number } = request.params
    const revision = new FormFields(request.body).carried('revision')
    await noteSent(deps, requireAccount(request).id, await requireRequestId(deps.db, number), revision)
    say(reply, 'Noted: you sent the link.')
    return reply.redirect(`/queue/${number}`, 303)
  })

  app.post<OfRequest>('/queue/:number/booking-link/end', OFFICE, async (request, reply) => {
    const { number } = request.params
    await endBookingLink(deps, requireAccount(request).id, await requireRequestId(deps.db, number))
    say(reply, 'The link is turned off.')
    return reply.redirect(`/queue/${number}/hand-over`, 303)
  })
}
