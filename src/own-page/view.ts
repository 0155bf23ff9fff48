import { findAccepted } from '../bookings/accepted-text.ts'
import { mayCallOff } from '../bookings/call-off.ts'
import type { Business } from '../business/queries.ts'
import type { SentAs } from '../db/schema/places.ts'
import type { Stage } from '../db/schema/stages.ts'
import type { Deps } from '../deps.ts'
import { type Key, type Translate, t, translator } from '../language/catalogue.ts'
import { dayInWords } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { sms } from '../lib/contact-links.ts'
import { dayOf } from '../lib/dates.ts'
import { hasGateway } from '../outbox/gateway.ts'
import { textWords } from '../outbox/text-words.ts'
import { requireVersion } from '../rates/standing.ts'
import { type BedView, viewBeds } from '../requests/bed-view.ts'
import { mayChangePhotos } from '../requests/changed-by-homeowner.ts'
import { findLinkPath } from '../requests/links.ts'
import { type PhotoFields, photoFields } from '../requests/photos/form.ts'
import { findPhotos } from '../requests/photos/queries.ts'
import { type PhotoView, viewPhotos } from '../requests/photos/view.ts'
import { type RangeView, viewRange } from '../requests/range-view.ts'
import { findOffers } from '../visits/offered-times.ts'
import { billLinks } from './bill-routes.ts'
import { depositOfRequest } from './deposit.ts'
import type { requireOwnRequest } from './queries.ts'
import { standsInWords } from './stands.ts'
import { findWishes, type Wishes } from './wishes.ts'

export type OwnRequest = Awaited<ReturnType<typeof requireOwnRequest>>

/** What the homeowner's own page needs. */
export interface OwnPage {
  request: OwnRequest
  /** Where it stands, in plain words. */
  stands: string
  /** How the deposit stands, a line each; mostly none. */
  deposit: string[]
  /** Where its bills are read, the newest first. */
  bills: { address: string; words: string; isFirst: boolean }[]
  arrived: string
  /** Who and where, as term and text. */
  facts: [term: string, text: string][]
  /** Whether a mail is out with the link that confirms the mail address. */
  toConfirm: boolean
  /** The path of the page with the firm price, while one stands. */
  pricePath: string | null
  hasAccepted: boolean
  /** The whole address of this page, to be kept. */
  link: string
  /** Opens it as a text message of one's own; null where the business has a gateway that sends it. */
  sms: string | null
  beds: (BedView | null)[]
  /** Null where no beds were told. */
  range: RangeView | null
  /** How it was sent, where that was without beds. */
  sentWithout: string | null
  photos: PhotoView[]
  /** The fields to add more; null where that can’t be, or there are as many as may be. */
  photoFields: PhotoFields | null
  mayRemovePhotos: boolean
  mayCallOff: boolean
  /** What leads to picking or moving the visit; null where there is nothing to pick. */
  visitLink: Key | null
  /** Whether a day is booked, which can be moved or said not to suit. */
  hasDay: boolean
  /** The path of this page, whichever of its forms was asked for. */
  ownPath: string
  /** Whether all can be done that a homeowner may; not before somebody has looked at what may be junk. */
  isWhole: boolean
  scripts: string[]
  values: { phone: string; note: string; textPhone: string } & Wishes
}

/** All that the own page of a quote request shows; `path` is the page's own. */
export async function viewOwnPage(
  deps: Deps,
  business: Business,
  request: OwnRequest,
  path: string,
  language: Language,
): Promise<OwnPage> {
  const photos = await findPhotos(deps.db, request.id)
  const mayChange = mayChangePhotos(request.stage)
  const left = business.photos_each - photos.length
  const pricePath = await findPricePath(deps, request)
  return {
    request,
    stands: await standsInWords(deps, business, request, language),
    deposit: await depositOfRequest(deps, business, request, language),
    bills: await billLinks(deps, request.id, path, language),
    arrived: dayInWords(dayOf(Temporal.Instant.from(request.arrived_at), business.time_zone), language),
    facts: contactInWords(request, translator(language, business.country)),
    toConfirm: await isToConfirm(deps, request),
    pricePath,
    hasAccepted: (await findAccepted(deps.db, request.id)).length > 0,
    ...(await viewTold(deps, request, language)),
    sentWithout: sentWithoutInWords(request, language),
    photos: viewPhotos(photos, path),
    photoFields: mayChange ? photoFields(left, [], [], `${path}/photos/held`) : null,
    mayRemovePhotos: mayChange,
    link: deps.config.publicUrl + path,
    sms: (await hasGateway(deps.db)) ? null : smsOf(deps, business, request, path, language),
    mayCallOff: mayCallOff(request.stage),
    visitLink: await findVisitLink(deps, request),
    hasDay: request.stage === 'booked',
    ownPath: path,
    isWhole: true,
    scripts: ['live.js', 'copy.js'],
    values: {
      phone: request.phone,
      note: '',
      textPhone: '',
      ...(await findWishes(deps.db, request.customer_id)),
    },
  }
}

/**
 * The beds and their range; none of those that the staff added for who sent none: they may be those of last year, which
 * nobody is told who merely types an address.
 */
async function viewTold(
  deps: Deps,
  request: OwnRequest,
  language: Language,
): Promise<Pick<OwnPage, 'beds' | 'range'>> {
  const { rate_table_id: version, result, sent_as } = request
  if (version === null || result === null || sent_as !== 'beds') return { beds: [], range: null }
  const { body: table } = await requireVersion(deps, version)
  const range = viewRange(result, request.told, table, language)
  return { beds: viewBeds(request, table, language), range }
}

function sentWithoutInWords({ sent_as, put_in_by, told }: OwnRequest, language: Language): string | null {
  if (told.beds.length > 0 && sent_as === 'beds') return null
  return t(language, put_in_by === 'staff' ? 'own.no-beds' : SENT_WITHOUT[sent_as])
}

const SENT_WITHOUT: Record<SentAs, Key> = {
  beds: 'ways.sent-look',
  photos: 'ways.sent-photos',
  'last year': 'ways.sent-last-year',
  look: 'ways.sent-look',
}

function smsOf(
  { config }: Deps,
  business: Business,
  { number, phone }: OwnRequest,
  path: string,
  language: Language,
): string {
  const brief = t(language, 'text.own-link', { number })
  const words = textWords(business.name, brief, config.publicUrl + path)
  return sms(phone, words) ?? `sms:?body=${encodeURIComponent(words)}`
}

function contactInWords(request: OwnRequest, say: Translate): [string, string][] {
  const facts: [string, string][] = [
    [say('contact.name'), request.name],
    [say('contact.phone'), request.phone],
    [say('contact.email'), request.email],
    [say('contact.street'), request.street],
    [say('contact.postcode'), request.postcode],
    [say('contact.preferredTimes'), request.preferred_times],
    [say('contact.gate'), request.gate],
    [say('own.dog'), request.dog],
    [say('own.note'), request.note],
  ]
  return facts.filter(([, text]) => text !== '')
}

async function isToConfirm(deps: Deps, { id, email, email_confirmed_at }: OwnRequest): Promise<boolean> {
  if (email === '' || email_confirmed_at || deps.config.smtpUrl === undefined) return false
  return (await findLinkPath(deps.db, deps.secretKey, 'email address', id)) !== undefined
}

/** The stages at which the page of the price is behind its link. */
const PRICED: Stage[] = ['quoted', 'day asked', 'week chosen', 'booked']

async function findPricePath(deps: Deps, request: OwnRequest): Promise<string | null> {
  if (!PRICED.includes(request.stage)) return null
  return (await findLinkPath(deps.db, deps.secretKey, 'booking', request.id)) ?? null
}

async function findVisitLink(deps: Deps, { id, stage }: OwnRequest): Promise<Key | null> {
  if (stage === 'visit set') return 'visits.link'
  const offered = stage === 'new' ? await findOffers(deps.db, id, deps.now()) : []
  return offered.length > 0 ? 'visits.link-pick' : null
}
