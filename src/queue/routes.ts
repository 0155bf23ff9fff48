import type { FastifyInstance } from 'fastify'
import { cannotDo } from '../bookings/cannot-do.ts'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { noteRequest } from '../requests/note.ts'
import { requireRequestId } from '../requests/queries.ts'
import { acceptedRoute } from './accepted-route.ts'
import { asideRoutes } from './aside-routes.ts'
import { askChangeRoutes } from './ask-change.ts'
import { billOfRequestRoutes } from './bill-routes.ts'
import { bookDayRoute } from './book-day.ts'
import { dayAskedRoutes } from './day-asked-routes.ts'
import { readNote, readWhyTurnedDown } from './form.ts'
import { type ListPage, showQueue } from './list-page.ts'
import { maybeJunkRoutes } from './maybe-junk-routes.ts'
import { moveRoutes } from './move-routes.ts'
import { paymentRoutes } from './payment-routes.ts'
import { photoRoutes } from './photo-routes.ts'
import { pricePaperRoute } from './price-paper-route.ts'
import { reopenRoute } from './reopen-route.ts'
import { type RequestPage, showRequest } from './request-page.ts'
import { visitRoutes } from './visit-routes.ts'
import { weekRoutes } from './week-routes.ts'
import { withdrawChangeRoute } from './withdraw-change.ts'

declare module '../http/render.ts' {
  interface Views {
    'queue/list': ListPage
    'queue/show': RequestPage
  }
}

const OFFICE = { config: { access: 'office' } } as const

interface OfRequest {
  Params: { number: string }
}

/** The staff's list and the page of one request, with what is posted from it. */
export function queueRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/queue', OFFICE, (request, reply) => showQueue(deps, request, reply))

  app.get<OfRequest>('/queue/:number', OFFICE, (request, reply) =>
    showRequest(deps, reply, request.params.number),
  )

  bookDayRoute(app, deps)
  withdrawChangeRoute(app, deps)
  paymentRoutes(app, deps)
  billOfRequestRoutes(app, deps)
  acceptedRoute(app, deps)
  pricePaperRoute(app, deps)
  askChangeRoutes(app, deps)
  photoRoutes(app, deps)
  visitRoutes(app, deps)
  asideRoutes(app, deps)
  dayAskedRoutes(app, deps)
  weekRoutes(app, deps)
  moveRoutes(app, deps)
  maybeJunkRoutes(app, deps)
  reopenRoute(app, deps)

  app.post<OfRequest>('/queue/:number/note', OFFICE, async (request, reply) => {
    const { number } = request.params
    const reading = readNote(new FormFields(request.body))
    if (!reading.ok) return showRequest(deps, reply, number, reading)
    const id = await requireRequestId(deps.db, number)
    await noteRequest(deps, requireAccount(request).id, id, reading.values.note)
    say(reply, 'The note is saved.')
    return reply.redirect(`/queue/${number}`, 303)
  })

  app.post<OfRequest>('/queue/:number/cannot-do', OFFICE, async (request, reply) => {
    const { number } = request.params
    const reading = readWhyTurnedDown(new FormFields(request.body))
    if (!reading.ok) return showRequest(deps, reply, number, reading)
    const id = await requireRequestId(deps.db, number)
    await cannotDo(deps, requireAccount(request).id, id, reading.values)
    say(reply, `Request ${number} is turned down.`)
    return reply.redirect(`/queue/${number}`, 303)
  })
}
