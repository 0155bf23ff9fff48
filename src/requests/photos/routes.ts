import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import type { Deps } from '../../deps.ts'
import { languageOf } from '../../http/language.ts'
import { FEW_A_MINUTE, MANY_A_MINUTE } from '../../http/rate-limits.ts'
import { holdSpace, type StrangersLimits, takeStrangersUploads } from '../../http/uploads.ts'
import { t } from '../../language/catalogue.ts'
import { MOST_BYTES } from '../../photos/garden-picture.ts'
import { MOST_SENT } from '../within-budget.ts'
import { PHOTOS_PATH } from './form.ts'
import { findHeldSmall } from './queries.ts'
import { sendPicture } from './send-picture.ts'
import { type Sender, takePhoto } from './take.ts'

/** Six photos as phones mostly make them; of more the first ones are kept, and forms may be so long before nobody listens. */
const FORM: StrangersLimits = { kept: 30_000_000, most: 90_000_000, least: MOST_SENT }

/** Lets the routes of this scope take forms with photos. */
export function takePhotoForms(scope: FastifyInstance, deps: Deps): void {
  takeStrangersUploads(scope, deps.load.space, FORM)
}

/** Photos that a script sends one by one before the request is sent, and their small pictures. */
export function heldPhotoRoutes(app: FastifyInstance, deps: Deps): void {
  app.get<{ Params: { token: string } }>(
    `${PHOTOS_PATH}/:token`,
    { config: { access: 'link', ...MANY_A_MINUTE } },
    async (request, reply) =>
      sendPicture(reply, await findHeldSmall(deps.db, request.params.token, deps.now())),
  )
  onePhotoRoute(app, deps, PHOTOS_PATH, 'open', async () => 'stranger')
}

/**
 * Takes one photo as the bytes of its file, for a script: answers with what the form carries for it, else with what is
 * wrong. `senderOf` says who sends it, and throws where nobody may.
 */
export function onePhotoRoute<Params>(
  app: FastifyInstance,
  deps: Deps,
  path: string,
  access: 'open' | 'link',
  senderOf: (request: FastifyRequest<{ Params: Params }>) => Promise<Sender>,
): void {
  app.register(async scope => {
    scope.addHook('preParsing', async (request, reply, payload) => {
      const told = Number(request.headers['content-length'] ?? MOST_BYTES)
      const wanted = Math.min(told, MOST_BYTES)
      if (holdSpace(deps.load.space, wanted, request.ip, reply.raw) < wanted)
        return refuse(request, reply, 503, t(languageOf(request), 'photos.no-room'))
      return payload
    })
    // A little more than the largest, so that it is refused with its reason.
    const bodyLimit = 2 * MOST_BYTES
    scope.addContentTypeParser(
      'application/octet-stream',
      { parseAs: 'buffer', bodyLimit },
      (_request, body, done) => done(null, body),
    )
    scope.post<{ Params: object }>(
      path,
      { bodyLimit, config: { access, json: true, ...FEW_A_MINUTE } },
      async (request, reply) => {
        const sender = await senderOf(request as FastifyRequest<{ Params: Params }>)
        const bytes = request.body instanceof Buffer ? request.body : Buffer.alloc(0)
        const taken = await takePhoto(deps, request, bytes, sender)
        if (taken.ok) return reply.send({ kept: taken.token })
        const message = t(languageOf(request), taken.fault.key, taken.fault.params)
        return refuse(request, reply, taken.busy ? 503 : 422, message)
      },
    )
  })
}

function refuse(request: FastifyRequest, reply: FastifyReply, status: number, message: string) {
  const errors = [{ field: 'photo', message }]
  return reply.code(status).send({ errors, request: request.id })
}
