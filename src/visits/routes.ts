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
import { type MeasurePage, showSheet } from './measure-page.ts'
import { keepMeasurements } from './visit.ts'

declare module '../http/render.ts' {
  interface Views {
    'visits/measure': MeasurePage
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

  app.post<OfRequest>('/queue/:number/measurements', OWNER, async (request, reply) => {
    const { number } = request.params
    const wanted = await requireRequest(deps.db, number)
    const rates = await findRateTable(deps.db, deps.now())
    if (!rates) throw new Refusal(503, 'error.not-open')
    const fields = new FormFields(request.body)
    const sheet = sheetOf(fields, wanted.told)
    if (fields.text('do') === 'add-bed') {
      if (sheet.beds.length < MOST_BEDS) sheet.beds.push(blankBed(sheet, rates.body))
      return showSheet(deps, reply, number, { sheet, errors: {} })
    }
    const reading = readSheet(sheet, wanted, rates.body)
    if (!reading.ok) return showSheet(deps, reply, number, { sheet, errors: reading.errors })
    await keepMeasurements(deps, requireAccount(request).id, wanted.id, reading.measured)
    const doubts = reading.doubts.length > 0 ? ` Please check: read as ${reading.doubts.join('; ')}.` : ''
    say(reply, `The measurements are saved.${doubts} Next: the price.`)
    return reply.redirect(`/queue/${number}`, 303)
  })
}
