import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { requireAccount } from '../http/signed-in.ts'
import { type Key, t, translator } from '../language/catalogue.ts'
import { requireRequestId } from '../requests/queries.ts'
import { decideToDig, enterTicket } from './dig-ticket.ts'
import { readDecision, readPlaceNotes, readTicket } from './form.ts'
import { keepPlaceNotes, type SheetPage, viewSheet } from './page.ts'
import { findSheetSettings } from './settings.ts'
import { checkStop } from './stops-done.ts'

declare module '../http/render.ts' {
  interface Views {
    'job-sheets/show': SheetPage
  }
}

type OfJob = FastifyRequest<{ Params: { number: string } }>
type OfStop = FastifyRequest<{ Params: { number: string; stop: string } }>

const STAFF = { config: { access: 'staff' as const } }

/** What the crew carries for a job, and what they enter there. */
export function jobSheetRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/days/jobs/:number/sheet', STAFF, (request: OfJob, reply) => show(deps, request, reply))

  app.post('/days/jobs/:number/place', STAFF, async (request: OfJob, reply) => {
    const id = await requireRequestId(deps.db, request.params.number)
    const reading = readPlaceNotes(new FormFields(request.body), translator(languageOf(request)))
    if (!reading.ok) return show(deps, request, reply, reading)
    await keepPlaceNotes(deps.db, id, reading.values)
    return back(request, reply, 'sheet.saved')
  })

  app.post('/days/jobs/:number/stops/:stop', STAFF, async (request: OfStop, reply) => {
    const id = await requireRequestId(deps.db, request.params.number)
    const stop = Number(/^\d{1,3}$/.exec(request.params.stop)?.[0] ?? -1)
    const isDone = new FormFields(request.body).text('done') !== 'no'
    await checkStop(deps, requireAccount(request).id, id, { stop, isDone })
    return reply.redirect(`/days/jobs/${request.params.number}/sheet#stop-${stop + 1}`, 303)
  })

  digRoutes(app, deps)
}

function digRoutes(app: FastifyInstance, deps: Deps): void {
  app.post('/days/jobs/:number/ticket', STAFF, async (request: OfJob, reply) => {
    const id = await requireRequestId(deps.db, request.params.number)
    const { units } = await requireBusiness(deps.db)
    const fields = new FormFields(request.body)
    const settings = await findSheetSettings(deps.db, units)
    const reading = readTicket(fields, settings, translator(languageOf(request)))
    if (!reading.ok) return show(deps, request, reply, reading)
    try {
      await enterTicket(deps, requireAccount(request).id, id, fields.carried('version'), reading.values)
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      return show(deps, request, reply, { errors: { '': t(languageOf(request), error.key) }, status: 409 })
    }
    return back(request, reply, 'sheet.saved')
  })

  app.post('/days/jobs/:number/go-on', STAFF, async (request: OfJob, reply) => {
    const id = await requireRequestId(deps.db, request.params.number)
    const reading = readDecision(new FormFields(request.body), translator(languageOf(request)))
    if (!reading.ok) return show(deps, request, reply, reading)
    await decideToDig(deps, requireAccount(request).id, id, reading.values)
    return back(request, reply, 'sheet.name-kept')
  })
}

function back(request: OfJob, reply: FastifyReply, said: Key) {
  say(reply, t(languageOf(request), said))
  return reply.redirect(`/days/jobs/${request.params.number}/sheet`, 303)
}

async function show(
  deps: Deps,
  request: OfJob,
  reply: FastifyReply,
  again?: { errors: Errors; typed?: Typed; status?: number },
) {
  const sheet = await viewSheet(deps, request.params.number, languageOf(request))
  if (!sheet) throw new NotFound()
  const page = { ...sheet, values: { ...sheet.values, ...again?.typed }, errors: again?.errors ?? {} }
  return reply.page('job-sheets/show', page, again ? (again.status ?? 422) : 200)
}
