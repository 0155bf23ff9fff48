import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { type Decided, moveToQueue, sayAllJunk, sayJunk } from '../requests/maybe-junk/decide.ts'
import { type MaybeJunkPage, viewMaybeJunkList } from './maybe-junk-page.ts'

declare module '../http/render.ts' {
  interface Views {
    'queue/maybe-junk': MaybeJunkPage
  }
}

const OFFICE = { config: { access: 'office' } } as const

type OfRequest = FastifyRequest<{ Params: { number: string } }>

/** What is held as maybe junk, each with its reasons: one tap says which it is. */
export function maybeJunkRoutes(app: FastifyInstance, deps: Deps): void {
  app.get('/queue/maybe-junk', OFFICE, async (request, reply) =>
    reply.page('queue/maybe-junk', await viewMaybeJunkList(deps, request.query)),
  )

  app.post('/queue/maybe-junk/:number/real', OFFICE, async (request: OfRequest, reply) => {
    const { number } = request.params
    const decided = await moveToQueue(deps, requireAccount(request).id, number)
    return answer(reply, decided, {
      done: `Request ${number} is in the queue now. The homeowner gets the usual message.`,
      before: `Request ${number} is in the queue already.`,
      gone: 'That one is gone: it was too old, or there were too many.',
    })
  })

  app.post('/queue/maybe-junk/:number/junk', OFFICE, async (request: OfRequest, reply) => {
    const { number } = request.params
    return answer(reply, await sayJunk(deps, number), {
      done: 'Noted as junk.',
      before: 'It was noted as junk already.',
      gone: `Somebody moved request ${number} to the queue. You can mark it as junk there.`,
    })
  })

  app.post('/queue/maybe-junk/all', OFFICE, async (request, reply) => {
    const numbers = new FormFields(request.body).text('numbers').split(' ').filter(isNumber)
    const count = await sayAllJunk(deps, numbers)
    say(reply, count === 1 ? '1 noted as junk.' : `${count} noted as junk.`)
    return reply.redirect('/queue/maybe-junk', 303)
  })
}

function answer(reply: FastifyReply, decided: Decided, said: Record<Decided, string>) {
  say(reply, said[decided])
  return reply.redirect('/queue/maybe-junk', 303)
}

function isNumber(text: string): boolean {
  return /^\d{2}-\d{4,9}$/.test(text)
}
