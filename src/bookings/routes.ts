import type { FastifyInstance, FastifyReply } from 'fastify'
import { readDay } from '../days/form.ts'
import type { Deps } from '../deps.ts'
import { FEW_A_MINUTE } from '../http/rate-limits.ts'
import { acceptRoutes } from './accept-routes.ts'
import { bookDay } from './booking.ts'
import { readWhyNot, type Typed, typedIn } from './form.ts'
import { declineQuote, REASONS } from './not-this-time.ts'
import { type OpenedLink, openBookingLink } from './page.ts'
import { inWords, type LinkRequest, orRefuse, showLink } from './show.ts'

declare module '../http/render.ts' {
  interface Views {
    'bookings/not-this-time': { link: OpenedLink; values: Typed; reasons: typeof REASONS }
  }
}

export function bookingRoutes(app: FastifyInstance, deps: Deps): void {
  const reads = { config: { access: 'link' as const } }
  const writes = { config: { access: 'link' as const, ...FEW_A_MINUTE } }
  app.get('/b/:token', reads, showBookingLink)
  app.get('/b/:token/day', reads, backToLink)
  app.post('/b/:token/day', writes, chooseDay)
  app.get('/b/:token/not-this-time', reads, showNotThisTime)
  app.post('/b/:token/not-this-time', writes, sayNotThisTime)
  acceptRoutes(app, deps)

  async function showBookingLink(request: LinkRequest, reply: FastifyReply) {
    return showLink(deps, request, reply)
  }

  async function backToLink(request: LinkRequest, reply: FastifyReply) {
    const { path } = await openBookingLink(deps, request.params.token)
    return reply.redirect(path, 303)
  }

  async function chooseDay(request: LinkRequest, reply: FastifyReply) {
    const { path, request: quoteRequest } = await openBookingLink(deps, request.params.token)
    const day = readDay(typedIn(request.body).day)
    if (!day)
      return showLink(deps, request, reply, 422, inWords(request, { day: 'booking.day-missing-only' }))
    const act = () => bookDay(deps, quoteRequest.id, day)
    return orRefuse(deps, request, reply, { path, said: 'booking.said-day', act })
  }

  async function showNotThisTime(request: LinkRequest, reply: FastifyReply) {
    const link = await openBookingLink(deps, request.params.token)
    if (link.state !== 'open') return reply.redirect(link.path, 303)
    return reply.page('bookings/not-this-time', { link, values: {}, reasons: REASONS })
  }

  async function sayNotThisTime(request: LinkRequest, reply: FastifyReply) {
    const link = await openBookingLink(deps, request.params.token)
    const values = typedIn(request.body)
    const reading = readWhyNot(values)
    if (!reading.ok) {
      const errors = inWords(request, reading.errors)
      return reply.page('bookings/not-this-time', { link, values, reasons: REASONS, errors }, 422)
    }
    const act = () => declineQuote(deps, link.request.id, reading.values)
    return orRefuse(deps, request, reply, { path: link.path, said: 'booking.said-declined', act })
  }
}
