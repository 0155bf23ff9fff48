import type { FastifyInstance, FastifyReply } from 'fastify'
import { requireBusiness } from '../../account/queries.ts'
import type { Deps } from '../../deps.ts'
import { photoPath } from '../../drawing/finish-tile.ts'
import { drawSwatch } from '../../drawing/hatches.ts'
import type { Finish } from '../../estimate/rate-table.ts'
import { Conflict, NotFound } from '../../http/errors.ts'
import { say } from '../../http/flash.ts'
import { requireAccount } from '../../http/session.ts'
import { takeUploads } from '../../http/uploads.ts'
import { momentInWords } from '../../lib/dates.ts'
import { saveDraft, seenOf } from '../draft/draft.ts'
import { type Draft, findDraft } from '../draft/queries.ts'
import type { Errors } from '../form.ts'
import { requireFinish } from '../new-price.ts'
import { type PhotoWanted, readPhotoForm } from './photo-form.ts'
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
      values: Record<string, string>
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
    const draft = await findDraft(deps.db)
    if (!draft) return reply.redirect('/rates', 303)
    const finish = requireFinish(draft.body, request.params.finish)
    return showPhoto(reply, draft, finish, { photo: finish.photo, uploaded: null })
  })

  await app.register(async scope => {
    takeUploads(scope, UPLOAD_LIMIT)
    scope.post<OfFinish>('/rates/draft/photo/:finish', { config: owner }, async (request, reply) => {
      const draft = await findDraft(deps.db)
      if (!draft) throw new Conflict('rates.draft-changed')
      const { slug, photo: before } = requireFinish(draft.body, request.params.finish)
      const account = requireAccount(request).id
      const { wanted, seen, errors } = await readPhotoForm(deps, account, request.body, before)
      if (Object.keys(errors).length > 0)
        return showPhoto(reply, draft, requireFinish(draft.body, slug), wanted, { errors, status: 422 })
      if (seen !== seenOf(draft)) return showStale(deps, reply, draft, slug, wanted)
      if (wanted.photo === before) say(reply, 'Nothing was different, so nothing was saved.')
      else if (await savedAsSeen(deps, account, draft, slug, wanted.photo))
        say(reply, 'Saved in the draft: its photo.')
      else return showStale(deps, reply, await findDraft(deps.db), slug, wanted)
      return reply.redirect(`/rates/draft/finish.${slug}`, 303)
    })
  })
}

async function savedAsSeen(
  deps: Deps,
  accountId: number,
  draft: Draft,
  slug: string,
  photo: string | null,
): Promise<boolean> {
  const finishes = draft.body.finishes.map(one => (one.slug === slug ? { ...one, photo } : one))
  try {
    await saveDraft(deps, accountId, seenOf(draft), { ...draft.body, finishes })
    return true
  } catch (error) {
    if (error instanceof Conflict) return false
    throw error
  }
}

async function showStale(
  deps: Deps,
  reply: FastifyReply,
  draft: Draft | undefined,
  slug: string,
  wanted: PhotoWanted,
) {
  if (!draft) throw new Conflict('rates.draft-changed')
  const { time_zone } = await requireBusiness(deps.db)
  const when = momentInWords(draft.saved_at, time_zone, 'en')
  const what = `${draft.saved_by_name} saved this draft on ${when}, after you opened this page.`
  const errors = { '': `${what} Nothing of yours was saved; it is still here. Save it again if it is right.` }
  return showPhoto(reply, draft, requireFinish(draft.body, slug), wanted, { errors, status: 409 })
}

function showPhoto(
  reply: FastifyReply,
  draft: Draft,
  { slug, name, hatch, swatch, photo }: Finish,
  wanted: PhotoWanted,
  wrong: { errors?: Errors; status?: number } = {},
) {
  const { errors = {}, status = 200 } = wrong
  const shown = wanted.uploaded ?? photo
  const values: Record<string, string> = wanted.drawn ? { drawn: 'yes' } : {}
  const data = {
    finish: { slug, name: name.en },
    seen: seenOf(draft),
    photo: shown && photoPath(shown),
    swatch: drawSwatch(hatch, swatch, 'swatch'),
    uploaded: wanted.uploaded,
    values,
  }
  return reply.page('rates/draft/photo', { ...data, errors }, status)
}
