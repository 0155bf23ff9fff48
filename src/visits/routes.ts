import type { FastifyInstance } from 'fastify'
import type { Deps } from '../deps.ts'
import { MOST_BEDS } from '../estimate/reading/read-beds.ts'
import { Refusal } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { findRateTable } from '../rates/queries.ts'
import { requireRequest } from '../requests/queries.ts'
import { blankBed, readSheet, sheetOf } from './measure-form.ts'
import { type LiveSheet, type MeasurePage, showSheet, showWorked } from './measure-page.ts'
import { keepMeasurements } from './visit.ts'

declare module '../http/render.ts' {
  interface Views {
    'visits/measure': MeasurePage
    'visits/live': LiveSheet
  }
}

const OWNER = { config: { access: 'owner' } } as const

interface OfRequest {
  Params: { number: string }
}

/** The site-visit sheet. */
export function visitRoutes(app: FastifyInstance, deps: Deps): void {
  app.get<OfRequest>('/queue/:number/measure', OWNER, (request, reply) =>
    showSheet(deps, reply, request.params.number),
  )

  // What follows from the sheet as typed, for a script; else the sheet with that. Nothing is stored.
  app.post<OfRequest>('/queue/:number/measure', OWNER, async (request, reply) => {
    const { number } = request.params
    const wanted = await requireRequest(deps.db, number)
    const sheet = sheetOf(new FormFields(request.body), wanted.told)
    if (request.headers['x-part'] === 'live') return showWorked(deps, reply, wanted, sheet)
    return showSheet(deps, reply, number, { sheet, errors: {} })
  })

  app.post<OfRequest>('/queue/:number/measurements', OWNER, async (request, reply) => {
    const { number } = request.params
    const wanted = await requireRequest(deps.db, number)
    const rates = await findRateTable(deps.db, deps.now())
    if (!rates) throw new Refusal(503, 'error.not-open')
    const fields = new FormFields(request.body)
    const sheet = sheetOf(fields, wanted.told)
    const isScript = request.headers['x-part'] === 'save'
    if (fields.text('do') === 'add-bed') {
      if (sheet.beds.length < MOST_BEDS) sheet.beds.push(blankBed(sheet, rates.body))
      return showSheet(deps, reply, number, { sheet, errors: {} })
    }
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
