import { randomUUID } from 'node:crypto'
import type { FastifyReply, FastifyRequest } from 'fastify'
import type { Deps } from '../deps.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { translator } from '../language/catalogue.ts'
import { requireStanding } from '../rates/standing.ts'
import { begunOf } from './begun.ts'
import { type Contact, readContact, typedContact } from './contact-form.ts'
import { takeInWeighed } from './maybe-junk/take-in.ts'
import { openTable } from './open-table.ts'
import { type PhotoFields, type PhotosRead, photoFields, readPhotos } from './photos/form.ts'
import { findSent, type TakenIn } from './quote-request.ts'
import { contentHash, numberSentBy } from './sent-before.ts'
import { isOutside } from './served.ts'
import { WAYS, type Way, type WayChoice, waysOffered } from './ways.ts'

/** What the page needs on which somebody asks for a price without measuring. */
export interface AskPage {
  way: Way
  /** The ways to begin, for the choice above. */
  ways: WayChoice[]
  submissionKey: string
  /** When the page was given out, signed. */
  begun: string
  /** Of which ZIP or postcode the page said that it isn't served; '' where it said so of none. */
  shownPostcode: string
  notServed: boolean
  values: Contact
  photos: PhotoFields | null
  here: string
  scripts: string[]
}

interface Ask {
  deps: Deps
  request: FastifyRequest
  reply: FastifyReply
  way: Way
}

/** Sends the page; with what was typed and what is wrong, where that was refused. */
export async function showAsk(
  { deps, reply, way }: Ask,
  again: { typed?: Typed; photos?: PhotosRead; key?: string; notServed?: boolean; errors?: Errors } = {},
): Promise<FastifyReply> {
  const { business } = await requireStanding(deps)
  const { typed = {}, photos, errors = {}, notServed = false } = again
  const each = business.photos_each
  const submissionKey = again.key ?? randomUUID()
  const page = {
    way,
    ways: waysOffered(each),
    submissionKey,
    begun: begunOf(deps, submissionKey, typed.begun),
    shownPostcode: notServed ? (typed.postcode ?? '') : '',
    notServed,
    values: typedContact(typed),
    photos: photoFields(each, photos?.kept, photos?.open),
    here: `/request?as=${way}`,
    scripts: ['live.js'],
    errors,
  }
  return reply.page('requests/ask', page, Object.keys(errors).length > 0 ? 422 : 200)
}

/** Takes in a request without beds; gives what was sent, or undefined where the page was shown again. */
export async function takeAsked(ask: Ask, key: string): Promise<TakenIn | undefined> {
  const { deps, request, way } = ask
  const fields = new FormFields(request.body)
  const { typed } = fields
  const told = { beds: [], extras: [], postcode: '' }
  const number = numberSentBy(request, deps, key)
  const before = await findSent(deps, { key, contentHash: contentHash(told, typed), number })
  if (before) return before
  const { business, rates } = await requireStanding(deps)
  const language = languageOf(request)
  const say = translator(language, business.country)
  const contact = readContact(fields, business.country, say)
  const most = business.photos_each
  const photos = await readPhotos(deps, request, fields, { most, sender: 'stranger', say })
  if (way === 'photos' && photos.kept.length === 0) fields.fault('photos', say('photos.none-sent'))
  const notServed = isOutside(fields.text('postcode'), openTable(rates.body))
  const saidSo = notServed && fields.text('shownPostcode') === fields.text('postcode')
  if (notServed && !saidSo) fields.fault('postcode', say('contact.not-served'))
  if (!contact.ok || Object.keys(fields.errors).length > 0) {
    await showAsk(ask, { typed, photos, key, notServed, errors: fields.errors })
    return undefined
  }
  const sending = { ...contact.values, told, submissionKey: key, language, sentAs: WAYS[way] }
  return takeInWeighed(deps, request, { typed, sending: { ...sending, photos: photos.kept }, worked: null })
}
