import type { FastifyInstance } from 'fastify'
import { requireBusiness } from '../account/queries.ts'
import { requireAccount } from '../account/session.ts'
import type { Deps } from '../deps.ts'
import { MOST_BEDS } from '../estimate/reading/read-beds.ts'
import { Refusal } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { type Field, nestFields } from '../http/nested-fields.ts'
import { momentInWords } from '../lib/dates.ts'
import { requireRequestId } from '../queue/queries.ts'
import { showRequest } from '../queue/request-page.ts'
import { findRateTable } from '../rates/queries.ts'
import { requireRequest } from '../requests/request-queries.ts'
import { blankBed, readSheet, sheetOf } from './measure-form.ts'
import { type MeasurePage, showSheet } from './measure-page.ts'
import { callOffVisit, keepMeasurements, leaveVisitOut, setVisit } from './visit.ts'
import { readVisit } from './visit-form.ts'

declare module '../http/render.ts' {
  interface Views {
    'visits/measure': MeasurePage
  }
}

const OWNER = { config: { access: 'owner' } } as const

interface OfRequest {
  Params: { number: string }
}

export function visitRoutes(app: FastifyInstance, deps: Deps): void {
  app.post<OfRequest>('/queue/:number/visit', OWNER, async (request, reply) => {
    const { number } = request.params
    const { visit } = nestFields(request.body)
    const typed = { date: textOf(visit, 'date'), time: textOf(visit, 'time') }
    const { time_zone: zone } = await requireBusiness(deps.db)
    const reading = readVisit(typed, zone, deps.now())
    if (!reading.ok) {
      const values = { 'visit.date': typed.date, 'visit.time': typed.time }
      return showRequest(deps, reply, number, { errors: reading.errors, values })
    }
    await setVisit(
      deps,
      requireAccount(request).id,
      await requireRequestId(deps.db, number),
      reading.startsAt,
    )
    say(reply, `The visit is set for ${momentInWords(reading.startsAt.toString(), zone, 'en')}.`)
    return reply.redirect(`/queue/${number}`, 303)
  })

  app.post<OfRequest>('/queue/:number/visit/call-off', OWNER, async (request, reply) => {
    const { number } = request.params
    await callOffVisit(deps, requireAccount(request).id, await requireRequestId(deps.db, number))
    say(reply, 'The visit is called off. Let the homeowner know.')
    return reply.redirect(`/queue/${number}`, 303)
  })

  app.post<OfRequest>('/queue/:number/visit/leave-out', OWNER, async (request, reply) => {
    const { number } = request.params
    await leaveVisitOut(deps, requireAccount(request).id, await requireRequestId(deps.db, number))
    say(reply, 'The visit is left out: these are the sums for the beds as told.')
    return reply.redirect(`/queue/${number}/quote`, 303)
  })

  sheetRoutes(app, deps)
}

function sheetRoutes(app: FastifyInstance, deps: Deps) {
  app.get<OfRequest>('/queue/:number/measure', OWNER, (request, reply) =>
    showSheet(deps, reply, request.params.number),
  )

  app.post<OfRequest>('/queue/:number/measurements', OWNER, async (request, reply) => {
    const { number } = request.params
    const wanted = await requireRequest(deps.db, number)
    const rates = await findRateTable(deps.db, deps.now())
    if (!rates) throw new Refusal(503, 'error.not-open')
    const form = nestFields(request.body)
    const sheet = sheetOf(form, wanted.told)
    if (form.do === 'add-bed') {
      if (sheet.beds.length < MOST_BEDS) sheet.beds.push(blankBed(sheet, rates.body))
      return showSheet(deps, reply, number, { sheet, errors: {} })
    }
    const reading = readSheet(sheet, wanted.told, rates.body)
    if (!reading.ok) return showSheet(deps, reply, number, { sheet, errors: reading.errors })
    await keepMeasurements(deps, requireAccount(request).id, wanted.id, reading.measured)
    say(reply, 'The measurements are kept. Next: the price.')
    return reply.redirect(`/queue/${number}`, 303)
  })
}

function textOf(fields: Field | undefined, name: string): string {
  const typed = typeof fields === 'object' && !Array.isArray(fields) ? fields[name] : undefined
  return typeof typed === 'string' ? typed : ''
}
