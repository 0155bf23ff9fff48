import type { FastifyInstance, FastifyReply } from 'fastify'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { verifyWebhook } from '../lib/webhook.ts'
import { changeChoices, findChoices, type Switch, TO_HOMEOWNERS, TO_STAFF } from '../outbox/choices.ts'
import { findGateway, type Gateway } from '../outbox/gateway.ts'
import { endFeed, findFeeds } from '../queue/feed.ts'
import { readGateway, removeGateway, renewGatewaySecret, setGateway } from './change-gateway.ts'
import { choicesAsFields, readChoices, STAFF_CHOICES } from './choices-form.ts'
import { readReply, takeReply } from './text-replies.ts'

declare module '../http/render.ts' {
  interface Views {
    'outbox/settings': {
      gateway: Gateway | null
      /** Where a gateway posts answers. */
      repliesTo: string
      /** Who of the staff subscribes to a calendar. */
      feeds: { id: number; name: string }[]
      toHomeowners: Switch[]
      toStaff: Switch[]
      staffChoices: typeof STAFF_CHOICES
      values: Typed
      scripts: string[]
    }
  }
}

const OWNER = { config: { access: 'owner' } } as const
/** Whoever changes where texts go reads every link that is texted. */
const DANGEROUS = { config: { access: 'owner', dangerous: true } } as const
const PAGE = '/settings/messages'

/** The owner's page of how messages go out. */
export function gatewayRoutes(app: FastifyInstance, deps: Deps): void {
  app.get(PAGE, OWNER, (_request, reply) => show(reply, deps))

  app.post(`${PAGE}/gateway`, DANGEROUS, async (request, reply) => {
    const reading = readGateway(new FormFields(request.body))
    if (!reading.ok) return show(reply, deps, reading)
    await setGateway(deps, reading.values.address)
    say(reply, 'Texts go to your gateway now.')
    return reply.redirect(PAGE, 303)
  })

  app.post(`${PAGE}/choices`, OWNER, async (request, reply) => {
    const reading = readChoices(new FormFields(request.body))
    if (!reading.ok) return show(reply, deps, reading)
    await changeChoices(deps.db, reading.values)
    say(reply, 'Saved. This counts for messages from now on.')
    return reply.redirect(PAGE, 303)
  })

  app.post(`${PAGE}/gateway/remove`, DANGEROUS, async (_request, reply) => {
    await removeGateway(deps)
    say(reply, 'Texts wait in the Outbox now, for you to pass on.')
    return reply.redirect(PAGE, 303)
  })

  app.post<{ Params: { id: string } }>(`${PAGE}/calendars/:id/end`, OWNER, async (request, reply) => {
    if (!/^\d{1,15}$/.test(request.params.id)) throw new NotFound()
    await endFeed(deps, Number(request.params.id))
    say(reply, 'That calendar address is turned off.')
    return reply.redirect(PAGE, 303)
  })

  app.post(`${PAGE}/gateway/secret`, DANGEROUS, async (_request, reply) => {
    await renewGatewaySecret(deps)
    say(reply, 'There’s a new secret. Give it to your gateway.')
    return reply.redirect(PAGE, 303)
  })
}

/** Where the gateway posts what people answer: signed as our own messages to it are. */
export async function replyRoute(app: FastifyInstance, deps: Deps): Promise<void> {
  await app.register(async scope => {
    // The signature is of the very bytes.
    scope.removeContentTypeParser('application/json')
    scope.addContentTypeParser(
      'application/json',
      { parseAs: 'string', bodyLimit: 64 * 1024 },
      (_request, body, done) => done(null, body),
    )
    const config = {
      access: 'open',
      crossSite: true,
      rateLimit: { max: 600, timeWindow: '1 minute' },
    } as const
    scope.post('/texts/replies', { config }, async (request, reply) => {
      const gateway = await findGateway(deps.db, deps.secretKey)
      const body = typeof request.body === 'string' ? request.body : ''
      const id = gateway && verifyWebhook(gateway.secret, request.headers, body, deps.now())
      if (!id) return refuse(reply, 401, 'The signature, the time, or the secret is wrong.')
      const answer = readReply(body)
      if (!answer) return refuse(reply, 400, 'An answer has "from" and "text".')
      if (!(await takeReply(deps, id, answer)))
        return refuse(reply, 422, 'There is no request with this phone number.')
      return reply.code(204).header('cache-control', 'no-store').send()
    })
  })
}

function refuse(reply: FastifyReply, status: number, error: string) {
  return reply.code(status).header('cache-control', 'no-store').send({ error })
}

async function show(reply: FastifyReply, deps: Deps, again: { typed?: Typed; errors?: Errors } = {}) {
  const gateway = (await findGateway(deps.db, deps.secretKey)) ?? null
  // What was sent is shown again as it was: a tick that is missing was taken away.
  const isSent = again.typed && !('gateway' in again.typed)
  const choices = isSent ? {} : choicesAsFields(await findChoices(deps.db))
  const data = {
    gateway,
    feeds: await findFeeds(deps),
    repliesTo: `${deps.config.publicUrl}/texts/replies`,
    toHomeowners: TO_HOMEOWNERS,
    toStaff: TO_STAFF,
    staffChoices: STAFF_CHOICES,
    values: { gateway: gateway?.address ?? '', ...choices, ...again.typed },
    errors: again.errors ?? {},
    scripts: ['copy.js'],
  }
  return reply.page('outbox/settings', data, again.errors ? 422 : 200)
}
