import { createHash } from 'node:crypto'
import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { conditionsInWords } from '../quotes/conditions.ts'
import { findNewestQuote, findVariant, type QuoteWithLines } from '../quotes/queries.ts'
import type { BedView } from '../requests/bed-view.ts'
import { viewAnswers } from './answers.ts'
import { type PriceView, viewPrice, viewQuotedBeds } from './page.ts'
import { quoteAs, viewPicked } from './picks.ts'
import { requireBookingRequest } from './queries.ts'

/** What somebody accepts, word for word, and the SHA-256 of its UTF-8 in hexadecimal. */
export interface TextToAccept {
  revision: number
  language: Language
  text: string
  digest: string
}

/** The words that are accepted with the newest quote of a request, with what was picked of its choices; undefined while there is none. */
export async function textToAccept(
  deps: Deps,
  quoteRequestId: number,
  language: Language,
  picks = '',
): Promise<TextToAccept | undefined> {
  const offered = await findOffered(deps, quoteRequestId, picks)
  return offered && textOf(deps, quoteRequestId, offered, language)
}

/** The newest quote of a request, with what was picked of its choices; undefined while there is none. */
export async function findOffered(
  deps: Deps,
  quoteRequestId: number,
  picks = '',
): Promise<QuoteWithLines | undefined> {
  const offered = await findNewestQuote(deps.db, quoteRequestId)
  if (!offered) return undefined
  const variant =
    offered.choices && !offered.accepted_at ? await findVariant(deps.db, offered.id, picks) : undefined
  return variant ? quoteAs(offered, variant) : offered
}

/** The words of one price of a request. */
export async function textOf(
  deps: Deps,
  quoteRequestId: number,
  quote: QuoteWithLines,
  language: Language,
): Promise<TextToAccept> {
  const request = await requireBookingRequest(deps.db, quoteRequestId)
  const { business } = await deps.standing.read()
  const price = await viewPrice(deps, quote, language)
  const beds = await viewQuotedBeds(deps, quote, language)
  const answers = business ? viewAnswers(business, language) : []
  const say = (key: Parameters<typeof t>[1], params = {}) => t(language, key, params, business?.country)
  const text = [
    [business?.name, business?.phone, business?.email].filter(Boolean).join(', '),
    say('booking.for', { ...request }),
    say('accepted.quote', { revision: quote.revision }),
    section(
      say('booking.beds'),
      beds.flatMap((bed, index) => [...stopBefore(bed, beds[index - 1]), bedInWords(bed, index)]),
    ),
    ...sectionOf(say('choose.title'), await viewPicked(deps, quote, language)),
    section(say('booking.lines'), [
      ...price.lines.map(({ label, note, amount }) => `${label}${note ? ` (${note})` : ''}: ${amount}`),
      `${say('booking.total')}: ${price.total}`,
      price.taxNote ?? '',
    ]),
    price.byStop &&
      section(say('stops.table'), [
        ...price.byStop.stops.map(stopInWords),
        `${say('stops.whole')}: ${price.byStop.whole.map(lineInWords).join('; ')}`,
      ]),
    ...sectionOf(say('deposit.title'), conditionsInWords(quote, language)),
    ...besides(price, quote, business?.name ?? '', say),
    section(
      say('booking.good-to-know'),
      answers.map(({ question, answer }) => `${question} ${answer}`),
    ),
    say('booking.holds', { day: price.holdsUntil }),
    say('booking.i-have-read'),
  ]
    .filter(Boolean)
    .join('\n\n')
  return { revision: quote.revision, language, text, digest: digestOf(text) }
}

/** The SHA-256 of a text's UTF-8, in hexadecimal. */
function digestOf(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex')
}

function besides(
  price: PriceView,
  { note }: QuoteWithLines,
  business: string,
  say: (key: 'booking.why' | 'booking.note', params?: { business: string }) => string,
): string[] {
  return [
    price.why && section(say('booking.why'), [price.why]),
    note && section(say('booking.note', { business }), [note]),
  ]
}

function sectionOf(heading: string, lines: string[]): string[] {
  return lines.length > 0 ? [section(heading, lines)] : []
}

function section(heading: string, lines: string[]): string {
  return [heading, ...lines.filter(Boolean)].join('\n')
}

// The name of a stop stands once, before its first bed.
function stopBefore(bed: BedView | null, before: BedView | null | undefined): string[] {
  return bed?.stop && bed.stop !== before?.stop ? [`${bed.stop.name}:`] : []
}

function stopInWords({ name, subtotal, lines }: NonNullable<PriceView['byStop']>['stops'][number]): string {
  return `${name}: ${subtotal} (${lines.map(lineInWords).join('; ')})`
}

function lineInWords({ label, amount }: { label: string; amount: string }): string {
  return `${label} ${amount}`
}

function bedInWords(bed: BedView | null, index: number): string {
  if (!bed) return `${index + 1}.`
  const { title, count, finish, depth, area, planted, lying, besides: more } = bed
  return [
    `${index + 1}. ${title}`,
    count > 1 ? `× ${count}` : '',
    `${finish}, ${depth}`,
    area,
    planted,
    lying,
    ...more,
  ]
    .filter(Boolean)
    .join('; ')
}

/** What was accepted of a request and when, newest first; the words are wanting of what was accepted before they were kept. */
export async function findAccepted(db: Kysely<Database>, quoteRequestId: number) {
  return db
    .selectFrom('acceptance')
    .innerJoin('quote', 'quote.id', 'acceptance.quote_id')
    .innerJoin('accepted_text', 'accepted_text.quote_id', 'quote.id')
    .select(['quote.revision', 'acceptance.typed_name', 'acceptance.accepted_at'])
    .select(['accepted_text.text', 'accepted_text.digest', 'accepted_text.language'])
    .where('quote.quote_request_id', '=', quoteRequestId)
    .orderBy('quote.revision', 'desc')
    .execute()
}

export type AcceptedText = Awaited<ReturnType<typeof findAccepted>>[number]
