import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import { readDay } from '../days/form.ts'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import type { Typed } from '../http/posted.ts'
import { seesCosts } from '../http/roles.ts'
import { requireAccount } from '../http/signed-in.ts'
import { takeUploads } from '../http/uploads.ts'
import { t, translator } from '../language/catalogue.ts'
import { Decimal } from '../lib/decimal.ts'
import { MOST_BYTES } from '../photos/garden-picture.ts'
import { findRateTable } from '../rates/queries.ts'
import { hasRoomForPhotos } from '../requests/photos/queries.ts'
import { type Again, readGetting, readWhat } from './form.ts'
import { getForDay, saySoldOut, takeSoldOutBack, undoGot } from './get.ts'
import { milesRoutes } from './miles-routes.ts'
import { packsInWords } from './packs-in-words.ts'
import { type LoadPage, viewLoadPage } from './page.ts'
import { findStartingJobs, findTicket } from './queries.ts'
import { setThing } from './set-thing.ts'

const STAFF = { config: { access: 'staff' } } as const
const UPLOAD_LIMIT = MOST_BYTES + 64 * 1024

declare module '../http/render.ts' {
  interface Views {
    'loads/day': LoadPage & { values: Typed }
  }
}

type OfDay = FastifyRequest<{ Params: { day: string } }>
type OfGot = FastifyRequest<{ Params: { day: string; got: string } }>

/** The load list of a work day, and what is ticked on it. */
export async function loadRoutes(app: FastifyInstance, deps: Deps): Promise<void> {
  app.get('/loads/:day', STAFF, (request: OfDay, reply) => show(request, reply))

  await app.register(async scope => {
    takeUploads(scope, UPLOAD_LIMIT)
    scope.post('/loads/:day/got', STAFF, async (request: OfDay, reply) => {
      const day = dayOfRequest(request)
      const language = languageOf(request)
      const fields = new FormFields(request.body)
      const business = await requireBusiness(deps.db)
      const hasRoom = () => hasRoomForPhotos(deps.db, business)
      const reading = await readGetting(fields, day, translator(language), hasRoom)
      if (!reading.ok)
        return show(request, reply, { values: reading.typed, errors: reading.errors, status: 422 })
      const got = reading.values
      const refused = await refusal(() => getForDay(deps, requireAccount(request).id, got))
      if (refused) return showRefused(request, reply, refused)
      const { body } = (await findRateTable(deps.db, deps.now()))!
      const what = packsInWords(new Decimal(got.units), got, body, language)
      return done(request, reply, t(language, 'loads.said-got', { what }))
    })
  })

  app.post('/loads/:day/got/:got/undo', STAFF, async (request: OfGot, reply) => {
    await undoGot(deps, requireAccount(request), idOf(request.params.got))
    return done(request, reply, t(languageOf(request), 'loads.said-undone'))
  })

  app.get('/loads/:day/got/:got/ticket', STAFF, async (request: OfGot, reply) => {
    const found = await findTicket(deps.db, idOf(request.params.got))
    const account = requireAccount(request)
    if (!found?.ticket || (!seesCosts(account) && found.made_by !== account.id)) throw new NotFound()
    return reply.header('cache-control', 'no-store').type('image/jpeg').send(found.ticket)
  })

  app.post('/loads/:day/sold-out', STAFF, async (request: OfDay, reply) => {
    const day = dayOfRequest(request)
    const what = readWhat(new FormFields(request.body))
    const refused = await refusal(() => saySoldOut(deps, requireAccount(request).id, day, what))
    if (refused) return showRefused(request, reply, refused)
    return done(request, reply, t(languageOf(request), 'loads.said-sold-out'))
  })

  app.post('/loads/:day/there', STAFF, async (request: OfDay, reply) => {
    const day = dayOfRequest(request)
    const jobs = await findStartingJobs(deps.db, day, day)
    const what = readWhat(new FormFields(request.body))
    await takeSoldOutBack(
      deps,
      jobs.map(({ id }) => id),
      what,
    )
    return done(request, reply, t(languageOf(request), 'loads.said-there'))
  })

  app.post('/loads/:day/thing', STAFF, async (request: OfDay, reply) => {
    const day = dayOfRequest(request)
    const fields = new FormFields(request.body)
    const [thing, isOn] = [fields.text('thing'), fields.tick('on')]
    await setThing(deps, requireAccount(request).id, { day, thing, isOn })
    const [key] = isOn ? (['loads.said-thing'] as const) : (['loads.said-thing-off'] as const)
    return done(request, reply, t(languageOf(request), key, { thing: thing.split('/')[0]!.trim() }))
  })

  milesRoutes(app, deps, { dayOfRequest, idOf, show })

  async function show(request: OfDay, reply: FastifyReply, again: Again = {}) {
    const day = dayOfRequest(request)
    const business = await requireBusiness(deps.db)
    const reader = {
      account: requireAccount(request),
      language: languageOf(request),
      country: business.country,
    }
    const page = await viewLoadPage(deps, business, day, reader)
    const { values = {}, errors = {}, status } = again
    return reply.page('loads/day', { ...page, values, errors }, status)
  }

  function showRefused(request: OfDay, reply: FastifyReply, { key, params }: Conflict) {
    return show(request, reply, { errors: { '': t(languageOf(request), key, params) }, status: 409 })
  }
}

async function refusal(act: () => Promise<void>): Promise<Conflict | null> {
  try {
    await act()
    return null
  } catch (error) {
    if (error instanceof Conflict) return error
    throw error
  }
}

function done(request: OfDay, reply: FastifyReply, sentence: string) {
  say(reply, sentence)
  return reply.redirect(`/loads/${dayOfRequest(request)}`, 303)
}

function dayOfRequest(request: OfDay): string {
  const day = readDay(request.params.day)
  if (!day) throw new NotFound()
  return day
}

function idOf(text: string): number {
  const id = Number(/^[1-9]\d{0,14}$/.exec(text)?.[0] ?? 0)
  if (id === 0) throw new NotFound()
  return id
}
