import type { FastifyInstance, FastifyReply } from 'fastify'
import type { Deps } from '../deps.ts'
import { bedsByStop } from '../estimate/job/stops.ts'
import { bedsOf } from '../estimate/understood/stored.ts'
import { Conflict } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors } from '../http/posted.ts'
import { requireAccount } from '../http/signed-in.ts'
import { requireStanding } from '../rates/standing.ts'
import { viewBeds } from '../requests/bed-view.ts'
import { type RequestRow, requireRequest } from '../requests/queries.ts'
import { mayChangeStops, type StopsWanted, saveStops, seenOf } from './change-stops.ts'
import { readStops } from './stops-form.ts'

declare module '../http/render.ts' {
  interface Views {
    'visits/stops': StopsPage
  }
}

export interface StopsPage {
  number: string
  customer: string
  /** Stands for the stops as they are, so that a form of older ones is refused. */
  seen: string
  mayChange: boolean
  stops: {
    was: number
    name: string
    note: string
    spot: string
    place: string
    placeWas: string
    beds: string[]
  }[]
}

type Typed = StopsWanted & { places: string[] }

const MEANWHILE =
  'Somebody else changed the stops meanwhile. What you typed is still here: look at it, then save it again.'

const OFFICE = { config: { access: 'office' } } as const

/** The stops of a job: their names, notes and order, for as long as there is no price. */
export function stopsRoutes(app: FastifyInstance, deps: Deps): void {
  app.get<{ Params: { number: string } }>('/queue/:number/stops', OFFICE, async (request, reply) =>
    show(reply, await requireRequest(deps.db, request.params.number)),
  )

  app.post<{ Params: { number: string } }>('/queue/:number/stops', OFFICE, async (request, reply) => {
    const wanted = await requireRequest(deps.db, request.params.number)
    const fields = new FormFields(request.body)
    const { stops = [] } = bedsOf(wanted).told
    const { wanted: asked, places, errors } = readStops(fields, stops)
    const typed = { ...asked, places }
    const isFaulty = Object.keys(errors).length > 0
    if (isFaulty && mayChangeStops(wanted.stage)) return show(reply, wanted, { typed, errors, status: 422 })
    try {
      await saveStops(deps, requireAccount(request).id, wanted.id, asked)
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      return showAsTheyStand(reply, wanted.number, typed)
    }
    say(reply, 'The stops are saved.')
    return reply.redirect(`/queue/${wanted.number}`, 303)
  })

  /** With what was typed where that can be saved still, of as many stops as there are. */
  async function showAsTheyStand(reply: FastifyReply, number: string, typed: Typed) {
    const wanted = await requireRequest(deps.db, number)
    const { stops = [] } = bedsOf(wanted).told
    if (!mayChangeStops(wanted.stage))
      return show(reply, wanted, {
        errors: { '': 'There is a price by now. Nothing was changed.' },
        status: 409,
      })
    const isWhole = typed.stops.length === stops.length
    return show(reply, wanted, { ...(isWhole && { typed }), errors: { '': MEANWHILE }, status: 409 })
  }

  async function show(
    reply: FastifyReply,
    wanted: RequestRow,
    { typed, errors = {}, status = 200 }: { typed?: Typed; errors?: Errors; status?: number } = {},
  ) {
    const { rates } = await requireStanding(deps)
    const stored = bedsOf(wanted)
    const views = viewBeds(stored, rates.body, 'en')
    const found = bedsByStop(stored.told)
    const order = typed?.stops ?? found.map(({ stop }, was) => ({ ...stop, was }))
    const data: StopsPage = {
      number: wanted.number,
      customer: wanted.customer_name,
      seen: seenOf(stored.told),
      mayChange: mayChangeStops(wanted.stage),
      stops: order.map(({ was, name, note, spot }, place) => ({
        ...{
          was,
          name,
          note,
          spot,
          place: typed?.places[place] ?? String(place + 1),
          placeWas: String(was + 1),
        },
        beds: (found[was]?.beds ?? []).flatMap(({ index }) => views[index]?.title ?? []),
      })),
    }
    return reply.page('visits/stops', { ...data, errors }, status)
  }
}
