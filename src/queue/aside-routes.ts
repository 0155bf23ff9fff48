import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { takeBackCannotDo } from '../bookings/cannot-do.ts'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { dayInWords } from '../language/dates-in-words.ts'
import { dayOf } from '../lib/dates.ts'
import { requireRequestId } from '../requests/queries.ts'
import { takeUpAgain } from '../requests/take-up-again.ts'
import { noteNoAnswer } from './called.ts'
import { readHold, readNoAnswer } from './form.ts'
import { markSeen } from './news.ts'
import { endOwnLink, makeOwnLink } from './own-link.ts'
import { showRequest } from './request-page.ts'
import { giveTo, markJunk, markReal, putOnHold, takeOffHold } from './set-aside.ts'

const OFFICE = { config: { access: 'office' } } as const

type OfRequest = FastifyRequest<{ Params: { number: string } }>

/** What one tap does, from the list or from the page of a request: it leads back to where it was tapped. */
export function asideRoutes(app: FastifyInstance, deps: Deps): void {
  app.post('/queue/:number/no-answer', OFFICE, async (request: OfRequest, reply) => {
    const { time_zone: zone } = await requireBusiness(deps.db)
    const noAnswer = readNoAnswer(new FormFields(request.body))
    return acted(request, reply, (by, id) => noteNoAnswer(deps, by, id, zone, noAnswer), 'No answer: noted.')
  })

  app.post('/queue/:number/seen', OFFICE, async (request: OfRequest, reply) => {
    const upTo = new FormFields(request.body).carried('upTo')
    return acted(request, reply, (_by, id) => markSeen(deps, id, upTo), 'Marked as seen.')
  })

  app.post('/queue/:number/hold', OFFICE, async (request: OfRequest, reply) => {
    const { time_zone: zone } = await requireBusiness(deps.db)
    const reading = readHold(new FormFields(request.body), dayOf(deps.now(), zone))
    if (!reading.ok) return showRequest(deps, reply, request.params.number, reading)
    const { until } = reading.values
    const said = `On hold until ${dayInWords(until, 'en')}.`
    return acted(request, reply, (by, id) => putOnHold(deps, by, id, until), said)
  })

  app.post('/queue/:number/hold/end', OFFICE, async (request: OfRequest, reply) =>
    acted(request, reply, (by, id) => takeOffHold(deps, by, id), 'It’s back on the list.'),
  )

  app.post('/queue/:number/give', OFFICE, async (request: OfRequest, reply) => {
    const to = new FormFields(request.body).carried('to') || null
    const said = to ? 'It’s given over.' : 'It’s nobody’s in particular now.'
    return acted(request, reply, (by, id) => giveTo(deps, by, id, to), said)
  })

  app.post('/queue/:number/junk', OFFICE, async (request: OfRequest, reply) =>
    acted(request, reply, (by, id) => markJunk(deps, by, id), 'It’s held apart as junk.'),
  )

  app.post('/queue/:number/real', OFFICE, async (request: OfRequest, reply) =>
    acted(request, reply, (by, id) => markReal(deps, by, id), 'It’s back on the list.'),
  )

  app.post('/queue/:number/take-back', OFFICE, async (request: OfRequest, reply) =>
    acted(request, reply, (by, id) => takeBackCannotDo(deps, by, id), 'It’s open again.'),
  )

  app.post('/queue/:number/own-link', OFFICE, async (request: OfRequest, reply) => {
    const stood = new FormFields(request.body).carried('standing') || null
    return acted(
      request,
      reply,
      (by, id) => makeOwnLink(deps, by, id, stood),
      'There’s a new link to their page.',
    )
  })

  app.post('/queue/:number/own-link/end', OFFICE, async (request: OfRequest, reply) =>
    acted(request, reply, (by, id) => endOwnLink(deps, by, id), 'The link to their page is off.'),
  )

  app.post('/queue/:number/again', OFFICE, async (request: OfRequest, reply) => {
    const id = await requireRequestId(deps.db, request.params.number)
    const number = await takeUpAgain(deps, requireAccount(request).id, id)
    say(reply, `This is request ${number}, with the beds of ${request.params.number}.`)
    return reply.redirect(`/queue/${number}`, 303)
  })

  async function acted(
    request: OfRequest,
    reply: FastifyReply,
    act: (accountId: number, id: number) => Promise<void>,
    said: string,
  ) {
    const { number } = request.params
    await act(requireAccount(request).id, await requireRequestId(deps.db, number))
    say(reply, said)
    const toList = new FormFields(request.body).text('back') === 'list'
    return reply.redirect(toList ? '/queue' : `/queue/${number}`, 303)
  }
}
