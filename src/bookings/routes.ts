import type { FastifyInstance, FastifyReply } from 'fastify'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import type { Typed } from '../http/posted.ts'
import { FEW_A_MINUTE, MANY_A_MINUTE } from '../http/rate-limits.ts'
import { type Key, keyed, t, translator } from '../language/catalogue.ts'
import { EnoughToday } from '../requests/enough-today.ts'
import { acceptRoutes } from './accept-routes.ts'
import { askQuestion } from './ask-question.ts'
import { type Booked, bookDay } from './booking.ts'
import { findWhyEnded, showEnded } from './ended.ts'
import { readChosenDay, readQuestion, readWhyNot } from './form.ts'
import { declineQuote, REASONS } from './not-this-time.ts'
import { type OpenedLink, openBookingLink } from './page.ts'
import { paperRoutes } from './paper-routes.ts'
import { pricePaperRoutes } from './price-paper-routes.ts'
import { noteSeen } from './seen.ts'
import { type LinkRequest, orRefuse, showLink, showOpened } from './show.ts'
import { showAccepted } from './show-accepted.ts'
import { isByWeek } from './view-days.ts'

declare module '../http/render.ts' {
  interface Views {
    'bookings/not-this-time': { link: OpenedLink; values: Typed; reasons: typeof REASONS }
  }
}

const SAID = {
  booked: 'booking.said-day',
  asked: 'asked.said',
  week: 'week.said',
} satisfies Record<Booked['as'], Key>

export function bookingRoutes(app: FastifyInstance, deps: Deps): void {
  const reads = { config: { access: 'link' as const, ...MANY_A_MINUTE } }
  const writes = { config: { access: 'link' as const, ...FEW_A_MINUTE } }
  app.get('/b/:token', reads, showBookingLink)
  app.get('/p/:token', reads, showReadingLink)
  app.post('/b/:token/question', writes, takeQuestion)
  app.get('/b/:token/question', reads, backToLink)
  app.get('/b/:token/day', reads, backToLink)
  app.post('/b/:token/day', writes, chooseDay)
  app.get('/b/:token/not-this-time', reads, showNotThisTime)
  app.post('/b/:token/not-this-time', writes, sayNotThisTime)
  app.post('/b/:token/seen', reads, saySeen)
  app.get('/b/:token/accepted', reads, showWhatWasAccepted)
  acceptRoutes(app, deps)
  paperRoutes(app, deps)
  pricePaperRoutes(app, deps)

  async function showBookingLink(request: LinkRequest, reply: FastifyReply) {
    const ended = await findWhyEnded(deps, 'booking', request.params.token)
    return ended ? showEnded(reply, ended) : showLink(deps, request, reply)
  }

  async function showReadingLink(request: LinkRequest, reply: FastifyReply) {
    const ended = await findWhyEnded(deps, 'reading', request.params.token)
    if (ended) return showEnded(reply, ended)
    return showOpened(deps, request, reply, await openBookingLink(deps, request.params.token, 'reading'))
  }

  async function takeQuestion(request: LinkRequest, reply: FastifyReply) {
    const { path, request: quoteRequest } = await openBookingLink(deps, request.params.token)
    const fields = new FormFields(request.body)
    const reading = readQuestion(fields, translator(languageOf(request)))
    if (!reading.ok) return showLink(deps, request, reply, 422, reading.errors, reading.typed)
    try {
      await askQuestion(deps, quoteRequest.id, reading.values.question)
    } catch (error) {
      if (!(error instanceof EnoughToday)) throw error
      const errors = { question: t(languageOf(request), error.key) }
      return showLink(deps, request, reply, error.status, errors, fields.typed)
    }
    say(reply, t(languageOf(request), 'booking.said-asked'))
    return reply.redirect(path, 303)
  }

  async function showWhatWasAccepted(request: LinkRequest, reply: FastifyReply) {
    const { path: back, request: quoteRequest } = await openBookingLink(deps, request.params.token)
    const shown = { quoteRequestId: quoteRequest.id, address: `${back}/accepted`, back, isStaff: false }
    return showAccepted(deps, request, reply, { ...shown, language: languageOf(request) })
  }

  async function backToLink(request: LinkRequest, reply: FastifyReply) {
    const { path } = await openBookingLink(deps, request.params.token)
    return reply.redirect(path, 303)
  }

  async function saySeen(request: LinkRequest, reply: FastifyReply) {
    const { request: quoteRequest } = await openBookingLink(deps, request.params.token)
    // The staff look at it too.
    if (!request.account) await noteSeen(deps, quoteRequest.id)
    return reply.code(204).send()
  }

  async function chooseDay(request: LinkRequest, reply: FastifyReply) {
    const link = await openBookingLink(deps, request.params.token)
    const { path, request: quoteRequest } = link
    const say = translator(languageOf(request))
    const fields = new FormFields(request.body)
    const reading = readChosenDay(fields, say, isByWeek(link))
    if (!reading.ok) return showLink(deps, request, reply, 422, reading.errors)
    const seen = { language: languageOf(request), prices: fields.text('prices') }
    const act = () => bookDay(deps, quoteRequest.id, reading.values.day, undefined, seen)
    return orRefuse(deps, request, reply, {
      path,
      said: ({ as }) => SAID[as],
      act,
    })
  }

  async function showNotThisTime(request: LinkRequest, reply: FastifyReply) {
    const link = await openBookingLink(deps, request.params.token)
    if (link.state !== 'open' && link.state !== 'change') return reply.redirect(link.path, 303)
    return reply.page('bookings/not-this-time', { link, values: {}, reasons: REASONS })
  }

  async function sayNotThisTime(request: LinkRequest, reply: FastifyReply) {
    const link = await openBookingLink(deps, request.params.token)
    const reading = readWhyNot(new FormFields(request.body), translator(languageOf(request)))
    if (!reading.ok) {
      const { typed: values, errors } = reading
      return reply.page('bookings/not-this-time', { link, values, reasons: REASONS, errors }, 422)
    }
    const act = () => declineQuote(deps, link.request.id, reading.values)
    return orRefuse(deps, request, reply, {
      path: link.path,
      said: () => keyed('booking.said-declined'),
      act,
    })
  }
}
