import type { FastifyInstance } from 'fastify'
import { NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { notePassedOn, stopMessage, tryAgain } from './handle.ts'
import type { LetterDeps } from './letter.ts'
import { type OutboxPage, readOutbox } from './outbox-page.ts'

declare module '../http/render.ts' {
  interface Views {
    'outbox/list': OutboxPage & { mailServer: boolean; scripts: string[] }
  }
}

const OFFICE = { config: { access: 'office' } } as const
const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/

type OfMessage = { Params: { id: string } }

/** The page Outbox, and what is done with one message. */
export function outboxRoutes(app: FastifyInstance, deps: LetterDeps): void {
  app.get('/outbox', OFFICE, async (request, reply) => {
    const page = await readOutbox(deps, requestOf(request.query))
    return reply.page('outbox/list', {
      ...page,
      mailServer: Boolean(deps.config.smtpUrl),
      scripts: ['copy.js'],
    })
  })

  const verbs = {
    'passed-on': {
      act: (id: string, accountId: number) => notePassedOn(deps, accountId, id),
      words: 'Marked as passed on.',
    },
    stop: { act: (id: string) => stopMessage(deps, id), words: 'The message is stopped.' },
    again: { act: (id: string) => tryAgain(deps, id), words: 'The message is on its way again.' },
  }
  for (const [verb, { act, words }] of Object.entries(verbs)) {
    app.post<OfMessage>(`/outbox/:id/${verb}`, OFFICE, async (request, reply) => {
      const { id } = request.params
      if (!UUID.test(id)) throw new NotFound()
      await act(id, requireAccount(request).id)
      say(reply, words)
      const of = requestOf(request.body)
      return reply.redirect(of ? `/outbox?request=${of}` : '/outbox', 303)
    })
  }
}

/** The number of the request whose messages alone are shown. */
function requestOf(from: unknown): string | null {
  const number = new FormFields(from).text('request')
  return /^\d\d-\d{4,9}$/.test(number) ? number : null
}
