import type { FastifyInstance, FastifyReply } from 'fastify'
import type { Deps } from '../../deps.ts'
import { photoPath } from '../../drawing/finish-tile.ts'
import { swatchTile } from '../../drawing/hatches.ts'
import { drawTile } from '../../drawing/tile.ts'
import type { Finish } from '../../estimate/table/rate-table.ts'
import { NotFound } from '../../http/errors.ts'
import { say } from '../../http/flash.ts'
import { FormFields } from '../../http/form-fields.ts'
import type { Errors, Typed } from '../../http/posted.ts'
import { requireAccount } from '../../http/signed-in.ts'
import { takeUploads } from '../../http/uploads.ts'
import { saveDraft } from '../draft/draft.ts'
import { showGone } from '../draft/gone.ts'
import { overtakenInWords } from '../draft/overtaken.ts'
import { type DraftState, requireDraftState } from '../draft/state.ts'
import { requireFinish } from '../new-price.ts'
import { readPhotoForm } from './photo-form.ts'
import { findPhoto } from './photos.ts'

declare module '../../http/render.ts' {
  interface Views {
    'rates/draft/photo': {
      finish: { slug: string; name: string }
      seen: string
      /** The path of the photo that is shown; null where the swatch is. */
      photo: string | null
      swatch: string
      /** The name of a photo that was uploaded and isn’t saved in the draft yet. */
      uploaded: string | null
      values: Typed
    }
  }
}

interface OfFinish {
  Params: { finish: string }
}

/** More than the largest photo, so that one a little too large is refused beside its field. */
const UPLOAD_LIMIT = 20_000_000
const owner = { access: 'owner' } as const

/** Serves the photos of finishes, to be kept by browsers for good: what a name stands for never changes. */
export function photoRoutes(app: FastifyInstance, deps: Deps): void {
  app.get<{ Params: { name: string } }>(
    '/finishes/photos/:name',
    { config: { access: 'asset' } },
    async (request, reply) => {
      const picture = await findPhoto(deps.db, request.params.name)
      if (!picture) throw new NotFound()
      return reply
        .header('cache-control', 'public, max-age=31536000, immutable')
        .type('image/jpeg')
        .send(picture)
    },
  )
}

/** The page on which the photo of a finish is put into the draft. */
export async function draftPhotoRoutes(app: FastifyInstance, deps: Deps): Promise<void> {
  app.get<OfFinish>('/rates/draft/photo/:finish', { config: owner }, async (request, reply) => {
    const draft = await requireDraftState(deps.db)
    const finish = requireFinish(draft.body, request.params.finish)
    return showPhoto(reply, draft, finish)
  })

  await app.register(async scope => {
    takeUploads(scope, UPLOAD_LIMIT)
    scope.post<OfFinish>('/rates/draft/photo/:finish', { config: owner }, async (request, reply) => {
      const draft = await requireDraftState(deps.db)
      const found = draft.body.finishes.find(({ slug }) => slug === request.params.finish)
      const fields = new FormFields(request.body)
      if (!found) {
        if (fields.text('seen') === draft.seen) throw new NotFound()
        return showGone(reply)
      }
      const { slug, photo: before } = found
      const account = requireAccount(request).id
      const reading = await readPhotoForm(fields, deps, account, before)
      if (!reading.ok)
        return showPhoto(reply, draft, requireFinish(draft.body, slug), { ...reading, status: 422 })
      const { photo, seen } = reading.values
      if (seen !== draft.seen && photo !== before) return showStale(deps, reply, slug, fields.typed)
      const finishes = draft.body.finishes.map(one => (one.slug === slug ? { ...one, photo } : one))
      if (photo === before) say(reply, 'Nothing was different, so nothing was saved.')
      else if (await saveDraft(deps, account, seen, { ...draft.body, finishes }))
        say(reply, 'Saved in the draft: its photo.')
      else return showStale(deps, reply, slug, fields.typed)
      return reply.redirect(`/rates/draft/finish.${slug}`, 303)
    })
  })
}

async function showStale(deps: Deps, reply: FastifyReply, slug: string, typed: Typed) {
  const draft = await requireDraftState(deps.db)
  const finish = draft.body.finishes.find(one => one.slug === slug)
  if (!finish) return showGone(reply)
  const errors = { '': await overtakenInWords(deps.db, draft) }
  return showPhoto(reply, draft, finish, { typed, errors, status: 409 })
}

function showPhoto(
  reply: FastifyReply,
  draft: DraftState,
  { slug, name, hatch, swatch, photo }: Finish,
  again: { typed?: Typed; errors?: Errors; status?: number } = {},
) {
  const { typed = {}, errors = {}, status = 200 } = again
  const uploaded = typed.uploaded || null
  const shown = uploaded ?? photo
  const data = {
    finish: { slug, name: name.en },
    seen: draft.seen,
    photo: shown && photoPath(shown),
    swatch: drawTile(swatchTile(hatch, swatch, 'swatch')),
    uploaded,
    values: typed,
  }
  return reply.page('rates/draft/photo', { ...data, errors }, status)
}
