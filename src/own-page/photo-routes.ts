import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import type { FormReading } from '../http/posted.ts'
import { FEW_A_MINUTE, MANY_A_MINUTE } from '../http/rate-limits.ts'
import { type Key, t, translator } from '../language/catalogue.ts'
import { requireStanding } from '../rates/standing.ts'
import { addPhotos, removePhoto } from '../requests/changed-by-homeowner.ts'
import { EnoughToday } from '../requests/enough-today.ts'
import { type PhotosRead, readPhotos } from '../requests/photos/form.ts'
import { findPhotos } from '../requests/photos/queries.ts'
import { onePhotoRoute, takePhotoForms } from '../requests/photos/routes.ts'
import { photoIdOf, sendPicture } from '../requests/photos/send-picture.ts'
import { findOwnPicture } from './open.ts'

interface OfPhoto {
  Params: { token: string; photo: string }
}

interface OfToken {
  Params: { token: string }
}

type Refused = FormReading<unknown> & { ok: false }

/** What the own page's other routes know how to do. */
interface OwnPageDoes {
  requireByToken(request: FastifyRequest<OfToken>): Promise<number>
  showAgain(
    request: FastifyRequest<OfToken>,
    reply: FastifyReply,
    refusal: Refused,
    photos: PhotosRead,
  ): Promise<FastifyReply>
}

const READS = { config: { access: 'link', ...MANY_A_MINUTE } } as const
const CHANGES = { config: { access: 'link', ...FEW_A_MINUTE } } as const

/** The photos on the homeowner's own page: behind its link, and changed from there until somebody has seen the beds. */
export function photoRoutes(app: FastifyInstance, deps: Deps, own: OwnPageDoes): void {
  for (const size of ['picture', 'small'] as const)
    app.get<OfPhoto>(
      `/r/:token/photos/:photo${size === 'small' ? '/small' : ''}`,
      READS,
      async (request, reply) => {
        const photoId = photoIdOf(request.params.photo)
        return sendPicture(reply, await findOwnPicture(request, deps, photoId, size))
      },
    )

  app.post<OfPhoto>('/r/:token/photos/:photo/remove', CHANGES, async (request, reply) => {
    const id = await own.requireByToken(request)
    await removePhoto(deps, id, photoIdOf(request.params.photo))
    return done(request, reply, 'photos.removed')
  })

  onePhotoRoute<OfToken['Params']>(app, deps, '/r/:token/photos/held', 'link', async request => {
    await own.requireByToken(request)
    return 'link'
  })

  app.register(async scope => {
    takePhotoForms(scope, deps)
    scope.post<OfToken>('/r/:token/photos', CHANGES, async (request, reply) => {
      const id = await own.requireByToken(request)
      const { business } = await requireStanding(deps)
      const most = Math.max(0, business.photos_each - (await findPhotos(deps.db, id)).length)
      const fields = new FormFields(request.body)
      const translate = translator(languageOf(request), business.country)
      const photos = await readPhotos(deps, request, fields, { most, sender: 'link', say: translate })
      const isFaulty = Object.keys(fields.errors).length > 0
      if (!isFaulty && photos.kept.length === 0) fields.fault('photos', translate('photos.missing'))
      const reading = fields.reading({})
      if (!reading.ok) return own.showAgain(request, reply, reading, photos)
      let added: number
      try {
        added = await addPhotos(deps, id, photos.kept)
      } catch (error) {
        if (!(error instanceof EnoughToday)) throw error
        const refused = { ok: false as const, typed: fields.typed, errors: { photos: translate(error.key) } }
        return own.showAgain(request, reply, refused, photos)
      }
      return done(request, reply, added === 1 ? 'photos.added-one' : 'photos.added')
    })
  })
}

function done(request: FastifyRequest<OfToken>, reply: FastifyReply, key: Key) {
  say(reply, t(languageOf(request), key))
  return reply.redirect(`/r/${request.params.token}#photos`, 303)
}
