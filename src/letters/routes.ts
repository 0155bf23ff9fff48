import type { FastifyInstance } from 'fastify'
import type { LetterDeps } from './letter.ts'
import { type OutboxPage, readOutbox } from './outbox-page.ts'

declare module '../http/render.ts' {
  interface Views {
    'outbox/list': OutboxPage & { mailServer: boolean }
  }
}

export function outboxRoutes(app: FastifyInstance, deps: LetterDeps): void {
  app.get('/outbox', { config: { access: 'owner' } }, async (_request, reply) =>
    reply.page('outbox/list', { ...(await readOutbox(deps)), mailServer: Boolean(deps.config.smtpUrl) }),
  )
}
