import type { FastifyInstance, FastifyReply } from 'fastify'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { t } from '../language/catalogue.ts'
import { requireStanding } from '../rates/standing.ts'
import { findLastBeds } from '../requests/last-beds.ts'
import { readBeds } from '../requests/put-in-form.ts'
import { requireRequest } from '../requests/queries.ts'
import { tellBeds } from '../requests/tell-beds.ts'
import { type PutInDonePage, showPutIn } from './put-in-page.ts'
import { decideCustomers, decidePlaces } from './same.ts'

declare module '../http/render.ts' {
  interface Views {
    'people/put-in': PutInDonePage
  }
}

const OFFICE = { config: { access: 'office' } } as const

interface OfRequest {
  Params: { number: string }
}

/** What follows on putting a request in: its beds, told or the same as last time. */
export function putInDoneRoutes(app: FastifyInstance, deps: Deps): void {
  app.get<OfRequest>('/put-in/:number', OFFICE, (request, reply) =>
    showPutIn(deps, reply, request.params.number),
  )

  app.post<OfRequest>('/put-in/:number/beds', OFFICE, async (request, reply) => {
    const { number } = request.params
    const { id, postcode } = await requireRequest(deps.db, number)
    const { rates } = await requireStanding(deps)
    const fields = new FormFields(request.body)
    const told = readBeds(fields, rates.body, postcode)
    if (told.beds.length === 0) fields.fault('beds', 'Write the beds, or how much.')
    const reading = fields.reading(told)
    if (!reading.ok) return showPutIn(deps, reply, number, reading)
    try {
      await tellBeds(deps, requireAccount(request).id, id, { told, understood: null })
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      const errors = { beds: t('en', error.key, error.params) }
      return showPutIn(deps, reply, number, { typed: fields.typed, errors, status: error.status })
    }
    return done(reply, number)
  })

  // The same customer, where one is named, and the same beds as they had last time.
  app.post<OfRequest>('/put-in/:number/same-beds', OFFICE, async (request, reply) => {
    const { number } = request.params
    const accountId = requireAccount(request).id
    const wanted = await requireRequest(deps.db, number)
    const other = new FormFields(request.body).carried('other')
    if (other > 0) await decideCustomers(deps, { one: wanted.customer_id, other, accountId }, 'same')
    const last = await findLastBeds(deps.db, other || wanted.customer_head_id, wanted.place_id)
    if (!last)
      return showPutIn(deps, reply, number, { typed: {}, errors: { '': 'No beds are known of them.' } })
    // Beds that were somewhere before are where the request is, too, which told no address.
    if (wanted.street === '')
      await decidePlaces(deps, { one: wanted.place_id, other: last.placeId, accountId }, true)
    await tellBeds(deps, accountId, wanted.id, last)
    return done(reply, number)
  })

  function done(reply: FastifyReply, number: string) {
    say(reply, `The beds of ${number} are in.`)
    return reply.redirect(`/put-in/${number}`, 303)
  }
}
