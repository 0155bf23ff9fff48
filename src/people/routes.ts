import type { FastifyInstance, FastifyReply } from 'fastify'
import type { Deps } from '../deps.ts'
import { Refusal } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { type Kind, requireCustomer } from '../places/queries.ts'
import { noteQuiet, noteSpoken, readSpoken } from './consents.ts'
import { type CustomerPage, showCustomer } from './customer-page.ts'
import { readDecision } from './form.ts'
import { type CustomersPage, showCustomers } from './list-page.ts'
import { type PlacePage, showPlace } from './place-page.ts'
import { type Decision, decideCustomers, decidePlaces, takeBack } from './same.ts'

declare module '../http/render.ts' {
  interface Views {
    'people/customer': CustomerPage
    'people/list': CustomersPage
    'people/place': PlacePage
  }
}

const OFFICE = { config: { access: 'office' } } as const

interface OfOne {
  Params: { id: string }
}

const SAID: Record<Decision, string> = {
  same: 'They are one customer now.',
  place: 'Same property, another customer.',
  apart: 'They are kept apart.',
}

/** The pages of customers and places, and what is decided on them: who is the same. */
export function peopleRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/customers', OFFICE, (request, reply) => showCustomers(deps, request, reply))
  app.get<OfOne>('/customers/:id', OFFICE, (request, reply) =>
    showCustomer(deps, reply, idOf(request.params.id)),
  )
  app.get<OfOne>('/places/:id', OFFICE, (request, reply) => showPlace(deps, reply, idOf(request.params.id)))

  app.post<OfOne>('/customers/:id/same', OFFICE, async (request, reply) => {
    const one = idOf(request.params.id)
    const { other, decision, back } = requireDecided(request.body)
    await decideCustomers(deps, { one, other, accountId: requireAccount(request).id }, decision)
    return done(reply, SAID[decision], back ?? `/customers/${one}`)
  })

  app.post<OfOne>('/places/:id/same', OFFICE, async (request, reply) => {
    const one = idOf(request.params.id)
    const { other, decision, back } = requireDecided(request.body)
    const isSame = decision !== 'apart'
    await decidePlaces(deps, { one, other, accountId: requireAccount(request).id }, isSame)
    return done(reply, isSame ? 'They are one property now.' : SAID.apart, back ?? `/places/${one}`)
  })

  app.post<OfOne>('/customers/:id/consent', OFFICE, async (request, reply) => {
    const id = await requireCustomer(deps.db, idOf(request.params.id))
    const reading = readSpoken(new FormFields(request.body))
    if (!reading.ok) return showCustomer(deps, reply, id, reading)
    await noteSpoken(deps, requireAccount(request).id, id, reading.values)
    return done(reply, 'Written down.', `/customers/${id}`)
  })

  app.post<OfOne>('/customers/:id/quiet', OFFICE, async (request, reply) => {
    const id = await requireCustomer(deps.db, idOf(request.params.id))
    const quiet = new FormFields(request.body).text('quiet') === 'yes'
    await noteQuiet(deps, id, quiet)
    return done(
      reply,
      quiet ? 'They get messages about booked work only.' : 'They get all messages again.',
      `/customers/${id}`,
    )
  })

  for (const [kind, path] of [
    ['customer', 'customers'],
    ['place', 'places'],
  ] as const satisfies [Kind, string][]) {
    app.post<OfOne & { Params: { decision: string } }>(
      `/${path}/:id/decisions/:decision/undo`,
      OFFICE,
      async (request, reply) => {
        await takeBack(deps, kind, idOf(request.params.decision), requireAccount(request).id)
        return done(reply, 'That is undone.', `/${path}/${idOf(request.params.id)}`)
      },
    )
  }
}

// What no id can be is none that there is.
export function idOf(told: string): number {
  return Number(/^\d{1,15}$/.exec(told)?.[0] ?? 0)
}

/** @throws {Refusal} 400 where a button of ours wasn't pressed */
function requireDecided(body: unknown) {
  const reading = readDecision(new FormFields(body))
  if (!reading.ok) throw new Refusal(400, 'error.400')
  return reading.values
}

function done(reply: FastifyReply, words: string, path: string) {
  say(reply, words)
  return reply.redirect(path, 303)
}
