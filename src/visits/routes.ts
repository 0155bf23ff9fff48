import type { FastifyInstance } from 'fastify'
import type { Deps } from '../deps.ts'
import { Refusal } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { findRateTable } from '../rates/queries.ts'
import { requireRequest } from '../requests/queries.ts'
import { blankBed, readSheet, sheetOf } from './measure-form.ts'
import { type LiveSheet, type MeasurePage, mostBeds, showSheet, showWorked } from './measure-page.ts'
import { changeStops } from './measure-stops.ts'
import { stopsRoutes } from './stops-page.ts'
import { keepMeasurements } from './visit.ts'

declare module '../http/render.ts' {
  interface Views {
    'visits/measure': MeasurePage
    'visits/live': LiveSheet
  }
}

const OFFICE = { config: { access: 'office' } } as const
/** As many beds as the staff may put into a job, with all of their fields filled. */
const SHEET = { ...OFFICE, bodyLimit: 2 * 1024 * 1024 } as const

interface OfRequest {
  Params: { number: string }
}

/** The site-visit sheet. */
export function visitRoutes(app: FastifyInstance, deps: Deps): void {
  stopsRoutes(app, deps)

  app.get<OfRequest>('/queue/:number/measure', OFFICE, (request, reply) =>
    showSheet(deps, reply, request.params.number),
  )

  // What follows from the sheet as typed, for a script; else the sheet with that. Nothing is stored.
  app.post<OfRequest>('/queue/:number/measure', SHEET, async (request, reply) => {
    const { number } = request.params
    const wanted = await requireRequest(deps.db, number)
    const fields = new FormFields(request.body)
    const sheet = sheetOf(fields, wanted)
    const near = fields.has('near') ? fields.carried('near') : null
    if (request.headers['x-part'] === 'live') return showWorked(deps, reply, wanted, sheet, near)
    return showSheet(deps, reply, number, { sheet, errors: {} })
  })

  app.post<OfRequest>('/queue/:number/measurements', SHEET, async (request, reply) => {
    const { number } = request.params
    const wanted = await requireRequest(deps.db, number)
    const rates = await findRateTable(deps.db, deps.now())
    if (!rates) throw new Refusal(503, 'error.not-open')
    const fields = new FormFields(request.body)
    const sheet = sheetOf(fields, wanted)
    const isScript = request.headers['x-part'] === 'save'
    const [, stop] = /^add-bed(?:\.(\d{1,2}))?$/.exec(fields.text('do')) ?? []
    if (fields.text('do').startsWith('add-bed')) {
      const at = sheet.stops.length > 0 ? Math.min(Number(stop ?? 0), sheet.stops.length - 1) : undefined
      if (sheet.beds.length < mostBeds(sheet)) sheet.beds.push(blankBed(sheet, rates.body, at))
      return showSheet(deps, reply, number, { sheet, errors: {}, stop: at })
    }
    const [, bed] = /^whole-bed\.(\d{1,3})$/.exec(fields.text('do')) ?? []
    if (bed !== undefined) return showSheet(deps, reply, number, { sheet, errors: {}, bed: Number(bed) })
    const done = changeStops(sheet, fields, wanted.told)
    if (done) return showSheet(deps, reply, number, done)
    const reading = readSheet(sheet, wanted, rates.body)
    if (!reading.ok) return showSheet(deps, reply, number, { sheet, errors: reading.errors })
    await keepMeasurements(deps, requireAccount(request).id, wanted.id, reading.measured)
    const doubts = reading.doubts.length > 0 ? ` Please check: read as ${reading.doubts.join('; ')}.` : ''
    say(reply, `The measurements are saved.${doubts} Next: the price.`)
    // A script can tell this from being sent to sign in, which is a redirect too.
    if (isScript) return reply.code(204).send()
    return reply.redirect(`/queue/${number}`, 303)
  })
}
