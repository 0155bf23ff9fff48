import type { Business } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { type Key, translator } from '../language/catalogue.ts'
import { dayInWords, timeInWords } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { dayOf } from '../lib/dates.ts'
import type { AmountLine, Paper, PaperBed, PaperPart } from '../paper/paper.ts'
import { findLogo } from '../papers/letterhead.ts'
import type { Difference } from '../quotes/difference.ts'
import type { PriceByStop } from '../quotes/stop-shares.ts'
import type { BedView } from '../requests/bed-view.ts'
import { findAccepted } from './accepted-text.ts'
import { viewAnswers } from './answers.ts'
import { type OpenedLink, viewConditions, viewDifference, viewPrice, viewQuotedBeds } from './page.ts'
import { standsInWords } from './paper-stands.ts'
import { type ChoicesView, viewChoices, viewPicked } from './picks.ts'

type Say = ReturnType<typeof translator>

/** Where paper is cut to 8.5 by 11 inches. */
const LETTER = ['US', 'CA', 'MX']

/** A price as its page has it, as a paper: the same words and amounts, in the same order as far as paper allows. */
export async function viewPricePaper(deps: Deps, link: OpenedLink, language: Language): Promise<Paper> {
  const { business, request, quote } = link
  const say = translator(language, business.country)
  const made = dayInWords(dayOf(Temporal.Instant.from(quote.made_at), business.time_zone), language, true)
  const whole = say('accepted.quote', { revision: quote.revision })
  return {
    language,
    title: `${say('paper.file', { number: request.number })}, ${business.name}`,
    made: deps.now(),
    size: paperSize(business),
    from: letterhead(business, (await findLogo(deps.db))?.bytes ?? null),
    heading: say(link.state === 'change' ? 'change.title' : 'booking.title'),
    about: [
      request.name,
      [request.street, request.postcode].filter(Boolean).join(', '),
      say('paper.number', { number: request.number }),
      say('paper.made', { quote: whole, day: made }),
    ],
    parts: await partsOf(deps, link, language, say),
    foot: `${business.name}, ${request.number}`,
    pageInWords: (page, pages) => say('paper.page', { page, pages }),
  }
}

/** The paper that is used where the business is. */
export function paperSize({ country }: Pick<Business, 'country'>): Paper['size'] {
  return LETTER.includes(country) ? 'LETTER' : 'A4'
}

/** Who a paper is from. */
export function letterhead(business: Business, logo: Buffer | null): Paper['from'] {
  const { name, postal_address, license_line, phone, email } = business
  const reached = [phone, email].filter(Boolean).join(' · ')
  return { name, lines: [...postal_address.split('\n'), reached, license_line].filter(Boolean), logo }
}

async function partsOf(deps: Deps, link: OpenedLink, language: Language, say: Say): Promise<PaperPart[]> {
  const { quote, business } = link
  const price = await viewPrice(deps, quote, language)
  const beds = await viewQuotedBeds(deps, quote, language)
  const choices = await viewChoices(deps, link, language)
  const difference = await viewDifference(deps, link, language)
  const text = (heading: Key, lines: string[]): PaperPart[] =>
    lines.some(Boolean) ? [{ kind: 'text', heading: say(heading, { business: business.name }), lines }] : []
  const answers = viewAnswers(business, language)
  return [
    {
      kind: 'text',
      heading: say('booking.total'),
      figure: price.total,
      lines: standsInWords(link, price.holdsUntil, language, say),
    },
    ...text('booking.why', [price.why]),
    ...(difference ? [differencePart(difference, say)] : []),
    ...(price.byStop ? [byStopPart(price.byStop, price.total, say)] : []),
    {
      kind: 'amounts',
      heading: say(price.byStop ? 'stops.all' : 'booking.lines'),
      lines: price.lines,
      total: { label: say('booking.total'), amount: price.total },
      note: price.taxNote,
    },
    ...(choices
      ? [choicesPart(choices, say)]
      : text('choose.title', await viewPicked(deps, quote, language))),
    ...text('deposit.title', await termsOf(deps, link, language, say)),
    ...text('booking.note', [quote.note]),
    {
      kind: 'beds',
      heading: say('booking.beds'),
      beds: bedsOnPaper(beds, say),
    },
    {
      kind: 'facts',
      heading: say('booking.good-to-know'),
      facts: answers.map(one => ({ what: one.question, said: one.answer, language: one.language })),
    },
    ...(await acceptedPart(deps, link, language, say)),
  ]
}

function differencePart(difference: Difference, say: Say): PaperPart {
  const fromTo = ({ before, now }: { before: string | null; now: string | null }) =>
    say('change.from-to', { before: before ?? say('change.nothing'), now: now ?? say('change.nothing') })
  return {
    kind: 'amounts',
    heading: say('change.table'),
    lines: difference.lines.map(line => ({ label: line.what, note: fromTo(line), amount: line.by })),
    total: { label: say('booking.total'), amount: difference.by },
    note: fromTo(difference),
  }
}

function choicesPart({ picks, addOns }: ChoicesView, say: Say): PaperPart {
  const wayOf = (way: string, isTaken: boolean, by: string) =>
    isTaken ? say('paper.chosen', { way }) : by ? say('paper.way', { way, by }) : way
  const added = addOns.map(({ label, hint, checked }) => wayOf(label, checked, hint))
  return {
    kind: 'facts',
    heading: say('choose.title'),
    facts: [
      ...picks.map(({ about, ways, value }) => ({
        what: about,
        said: ways.map(way => wayOf(way.label, way.value === value, way.hint)).join('\n'),
      })),
      ...(added.length > 0 ? [{ what: say('choose.add'), said: added.join('\n') }] : []),
    ],
  }
}

async function termsOf(deps: Deps, link: OpenedLink, language: Language, say: Say): Promise<string[]> {
  const { daysToPay, rules } = link
  return [
    ...(await viewConditions(deps, link, language)),
    ...(daysToPay === null ? [] : [say('booking.pay-within', { days: daysToPay })]),
    ...(rules ? [say('booking.rules', { rules })] : []),
  ]
}

function byStopPart({ stops, whole }: PriceByStop, total: string, say: Say): PaperPart {
  const plain = ({ label, amount }: { label: string; amount: string }) => ({ label, note: null, amount })
  return {
    kind: 'amounts',
    heading: say('stops.table'),
    lines: [
      ...stops.flatMap(({ name, spot, subtotal, lines }): AmountLine[] =>
        // What is one thing alone needs no line of its own below its stop.
        lines.length === 1
          ? [{ label: name, note: [spot, lines[0]!.label].filter(Boolean).join('. '), amount: subtotal }]
          : [{ label: name, note: spot, amount: subtotal, heads: true }, ...lines.map(plain)],
      ),
      ...(whole.length > 0 ? [{ label: say('stops.whole'), note: null, amount: '', heads: true }] : []),
      ...whole.map(plain),
    ],
    total: { label: say('booking.total'), amount: total },
    note: null,
  }
}

function bedsOnPaper(beds: (BedView | null)[], say: Say): PaperBed[] {
  let last: BedView['stop']
  return beds.flatMap(bed => {
    if (!bed) return []
    const { stop } = bed
    const isFirst = stop && stop.name !== last?.name
    last = stop
    return [
      {
        ...bedOnPaper(bed, say),
        ...(isFirst && { over: [stop.name, stop.spot].filter(Boolean).join(', ') }),
      },
    ]
  })
}

function bedOnPaper(bed: BedView, say: Say): PaperBed {
  const what = say('beds.finish-deep', { finish: bed.finish, depth: bed.depth })
  return {
    title: bed.title,
    lines: [
      `${bed.count > 1 ? `${say('beds.count', { count: bed.count })}. ` : ''}${what}.`,
      [bed.area, bed.edge && `${say('beds.edge')} ${bed.edge}`].filter(Boolean).join(' · '),
      `${say('beds.planted')}: ${bed.planted}`,
      `${say('beds.lying')}: ${bed.lying}`,
      `${say('beds.measured')}: ${bed.measured}`,
      ...bed.besides,
    ].filter(Boolean),
    drawing: bed.drawing,
  }
}

async function acceptedPart(
  { db }: Deps,
  { request, quote, business }: OpenedLink,
  language: Language,
  say: Say,
): Promise<PaperPart[]> {
  const accepted = (await findAccepted(db, request.id)).find(({ revision }) => revision === quote.revision)
  if (!accepted) return []
  const at = accepted.accepted_at
  const day = dayInWords(dayOf(Temporal.Instant.from(at), business.time_zone), language, true)
  const when = `${day}, ${timeInWords(at, business.time_zone, language)}`
  const by = say('accepted.by', { name: accepted.typed_name, when })
  const digest = `${say('accepted.digest')}: ${accepted.digest}`
  return [
    { kind: 'text', heading: say('paper.accepted'), lines: [by, digest] },
    {
      kind: 'text',
      heading: say('accepted.quote', { revision: quote.revision }),
      lines: [accepted.text],
      language: accepted.language,
    },
  ]
}
