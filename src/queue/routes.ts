import type { FastifyInstance } from 'fastify'
import { requireAccount } from '../account/session.ts'
import { cannotDo } from '../bookings/cannot-do.ts'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { nestFields } from '../http/nested-fields.ts'
import { endBookingLink, makeBookingLink } from '../quotes/booking-link.ts'
import { type HandOverPage, showHandOver } from '../quotes/hand-over.ts'
import { type QuotePage, showQuoteForm } from '../quotes/quote-page.ts'
import { quoteRoute } from '../quotes/quote-route.ts'
import { showWorksheet, type WorksheetPage } from '../quotes/worksheet-page.ts'
import { noteRequest } from '../requests/note.ts'
import { bookDayRoute } from './book-day.ts'
import { readNoteForm, readReasonForm } from './form.ts'
import { type ListPage, showQueue } from './list-page.ts'
import { requireRequestId } from './queries.ts'
import { type RequestPage, showRequest } from './request-page.ts'

declare module '../http/render.ts' {
  interface Views {
    'queue/list': ListPage
    'queue/show': RequestPage
    'queue/quote': QuotePage
    'queue/hand-over': HandOverPage
    'queue/worksheet': WorksheetPage
  }
}

const OWNER = { config: { access: 'owner' } } as const

interface OfRequest {
  Params: { number: string }
}

export function queueRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/queue', OWNER, (request, reply) => showQueue(deps, request, reply))

  app.get<OfRequest>('/queue/:number', OWNER, (request, reply) =>
    showRequest(deps, reply, request.params.number),
  )

  app.get<OfRequest>('/queue/:number/quote', OWNER, (request, reply) =>
    showQuoteForm(deps, reply, request.params.number),
  )

  app.get<OfRequest & { Querystring: { now?: string } }>(
    '/queue/:number/worksheet',
    OWNER,
    (request, reply) => showWorksheet(deps, reply, request.params.number, request.query.now === '1'),
  )

  quoteRoute(app, deps)
  linkRoutes(app, deps)
  bookDayRoute(app, deps)

  app.post<OfRequest>('/queue/:number/note', OWNER, async (request, reply) => {
    const { number } = request.params
    const form = readNoteForm(nestFields(request.body))
    if (!form.ok) return showRequest(deps, reply, number, { errors: form.errors, values: form.typed })
    const id = await requireRequestId(deps.db, number)
    await noteRequest(deps, requireAccount(request).id, id, form.values.note)
    say(reply, 'The note is kept.')
    return reply.redirect(`/queue/${number}`, 303)
  })

  app.post<OfRequest>('/queue/:number/cannot-do', OWNER, async (request, reply) => {
    const { number } = request.params
    const form = readReasonForm(nestFields(request.body))
    if (!form.ok) return showRequest(deps, reply, number, { errors: form.errors, values: form.typed })
    const id = await requireRequestId(deps.db, number)
    await cannotDo(deps, requireAccount(request).id, id, form.values.reason)
    say(reply, `Request ${number} is off the list. Let the homeowner know.`)
    return reply.redirect(`/queue/${number}`, 303)
  })
}

function linkRoutes(app: FastifyInstance, deps: Deps) {
  app.get<OfRequest>('/queue/:number/hand-over', OWNER, (request, reply) =>
    showHandOver(deps, reply, request.params.number),
  )

  app.post<OfRequest>('/queue/:number/booking-link', OWNER, async (request, reply) => {
    const { number } = request.params
    await makeBookingLink(deps, requireAccount(request).id, await requireRequestId(deps.db, number))
    say(reply, 'A new link is made. The one before opens nothing any more.')
    return reply.redirect(`/queue/${number}/hand-over`, 303)
  })

  app.post<OfRequest>('/queue/:number/booking-link/end', OWNER, async (request, reply) => {
    const { number } = request.params
    await endBookingLink(deps, requireAccount(request).id, await requireRequestId(deps.db, number))
    say(reply, 'The link opens nothing any more.')
    return reply.redirect(`/queue/${number}/hand-over`, 303)
  })
}
