import { createHash } from 'node:crypto'
import type { FastifyInstance, FastifyRequest } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import type { Errors, FormReading } from '../http/posted.ts'
import { requireAccount } from '../http/signed-in.ts'
import { takeUploads } from '../http/uploads.ts'
import { type Translate, t, translator } from '../language/catalogue.ts'
import { dayOf } from '../lib/dates.ts'
import { MOST_BYTES, makeGardenPicture } from '../photos/garden-picture.ts'
import { TooManyPictures } from '../photos/one-at-a-time.ts'
import { lookAtPicture } from '../photos/read-picture.ts'
import { photoIdOf, sendPicture } from '../requests/photos/send-picture.ts'
import { requireRequest, requireRequestId } from '../requests/queries.ts'
import { removeJobPhoto } from './remove-photo.ts'
import { showClosing } from './routes.ts'
import {
  endTrouble,
  findJobPicture,
  type JobPhoto,
  keepJobPhotos,
  noteTrouble,
  type Trouble,
} from './troubles.ts'

const STAFF = { config: { access: 'staff' as const } }
const FILES = 3
const UPLOAD_LIMIT = FILES * MOST_BYTES + 1_000_000
const KINDS = ['damage', 'come back'] as const
const KEY = /^[\da-f]{8}(-[\da-f]{4}){3}-[\da-f]{12}$/
const MOST_WORDS = 500

type OfJob = FastifyRequest<{ Params: { number: string } }>

/** Photos of a job, and what was damaged there or is to be put right for free. */
export async function troubleRoutes(app: FastifyInstance, deps: Deps): Promise<void> {
  for (const size of ['picture', 'small'] as const)
    app.get<{ Params: { number: string; photo: string } }>(
      `/days/jobs/:number/photos/:photo${size === 'small' ? '/small' : ''}`,
      STAFF,
      async (request, reply) => {
        const id = await requireRequestId(deps.db, request.params.number)
        return sendPicture(reply, await findJobPicture(deps.db, id, photoIdOf(request.params.photo), size))
      },
    )

  app.post<{ Params: { number: string; trouble: string } }>(
    '/days/jobs/:number/trouble/:trouble/done',
    STAFF,
    async (request, reply) => {
      const { number, trouble } = request.params
      const id = await requireRequestId(deps.db, number)
      await endTrouble(deps, requireAccount(request).id, id, photoIdOf(trouble))
      say(reply, t(languageOf(request), 'closing.trouble-ended'))
      return reply.redirect(`/days/jobs/${number}/close`, 303)
    },
  )

  app.post<{ Params: { number: string; photo: string } }>(
    '/days/jobs/:number/photos/:photo/remove',
    STAFF,
    async (request, reply) => {
      const { id, number } = await requireRequest(deps.db, request.params.number)
      const photoId = photoIdOf(request.params.photo)
      const remove = () => removeJobPhoto(deps, requireAccount(request).id, id, photoId)
      const refused = await refusal(request, '', remove)
      if (refused) return showClosing(deps, request, reply, { ...refused, status: 409 })
      say(reply, t(languageOf(request), 'photos.removed'))
      return reply.redirect(`/days/jobs/${number}/close`, 303)
    },
  )

  await app.register(async scope => {
    takeUploads(scope, UPLOAD_LIMIT)

    scope.post('/days/jobs/:number/photos', STAFF, async (request: OfJob, reply) => {
      const { id, number } = await requireRequest(deps.db, request.params.number)
      const say_ = translator(languageOf(request))
      const reading = await readPhotos(new FormFields(request.body), say_)
      if (!reading.ok) return showClosing(deps, request, reply, reading)
      const keep = () => keepJobPhotos(deps, requireAccount(request).id, id, reading.values)
      const refused = await refusal(request, 'photo.0', keep)
      if (refused) return showClosing(deps, request, reply, refused)
      say(reply, say_('closing.photos-kept'))
      return reply.redirect(`/days/jobs/${number}/close`, 303)
    })

    scope.post('/days/jobs/:number/trouble', STAFF, async (request: OfJob, reply) => {
      const { id, number } = await requireRequest(deps.db, request.params.number)
      const say_ = translator(languageOf(request))
      const today = dayOf(deps.now(), (await requireBusiness(deps.db)).time_zone)
      const fields = new FormFields(request.body)
      const reading = await readTrouble(fields, today, say_)
      if (!reading.ok) return showClosing(deps, request, reply, reading)
      const note = () => noteTrouble(deps, requireAccount(request).id, id, reading.values)
      const refused = await refusal(request, 'troublePhoto', note)
      if (refused) return showClosing(deps, request, reply, { ...refused, typed: fields.typed })
      say(reply, say_('closing.trouble-noted'))
      return reply.redirect(`/days/jobs/${number}/close`, 303)
    })
  })
}

/** What is said beside a field, or of the whole page, where photos find no room or stay. */
async function refusal(
  request: FastifyRequest,
  field: string,
  act: () => Promise<void>,
): Promise<{ errors: Errors } | null> {
  try {
    await act()
    return null
  } catch (error) {
    if (!(error instanceof Conflict)) throw error
    return { errors: { [field]: t(languageOf(request), error.key, error.params) } }
  }
}

async function readPhotos(fields: FormFields, say: Translate): Promise<FormReading<JobPhoto[]>> {
  const photos: JobPhoto[] = []
  for (let index = 0; index < FILES; index += 1) {
    const photo = await readPhoto(fields, `photo.${index}`, say)
    if (photo) photos.push(photo)
  }
  if (photos.length === 0) fields.fault('photo.0', say('closing.no-photo'))
  return fields.reading(photos)
}

async function readTrouble(fields: FormFields, today: string, say: Translate): Promise<FormReading<Trouble>> {
  const kind = fields.choice('kind', KINDS, say('closing.pick-kind')) ?? 'damage'
  const words = fields.lines('words', {
    ...{ most: MOST_WORDS, tooLong: say('closing.too-long'), missing: say('closing.say-what') },
  })
  const day = kind === 'come back' ? fields.day('day', say('closing.say-back-day')) : null
  if (day && day < today) fields.fault('day', say('closing.day-past'))
  const key = fields.text('key')
  if (!KEY.test(key)) fields.fault('', say('closing.changed'))
  const photo = await readPhoto(fields, 'troublePhoto', say)
  return fields.reading({ key, kind, words, day, photo })
}

async function readPhoto(fields: FormFields, name: string, say: Translate): Promise<JobPhoto | null> {
  const file = fields.file(name)
  if (!file) return null
  const bytes = new Uint8Array(await file.arrayBuffer())
  const looked = await lookAtPicture(bytes, '', MOST_BYTES)
  if (!looked.ok) {
    fields.fault(name, say(looked.fault.key, looked.fault.params))
    return null
  }
  try {
    const made = await makeGardenPicture(bytes)
    if (made.ok) {
      const digest = createHash('sha256').update(bytes).digest('hex')
      return { made: made.made, words: '', digest }
    }
    fields.fault(name, say(made.fault.key, made.fault.params))
  } catch (error) {
    if (!(error instanceof TooManyPictures)) throw error
    fields.fault(name, say('closing.photos-busy'))
  }
  return null
}
