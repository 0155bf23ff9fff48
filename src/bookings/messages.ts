import { startInWords } from '../days/start.ts'
import { dayInWords } from '../language/dates-in-words.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { dayOf } from '../lib/dates.ts'
import { cents, Decimal } from '../lib/decimal.ts'
import type { MessageKind } from '../outbox/kinds.ts'
import { type About, forStaff, type Message, type WriteMessage } from '../outbox/message.ts'
import { findHeld } from '../payments/queries.ts'
import { depositStanding } from '../payments/standing.ts'
import { hasNear } from '../quotes/near-discount.ts'
import { findAcceptedQuote } from '../quotes/queries.ts'
import { linkTo, pageLink } from '../requests/messages.ts'
import { toldIn } from '../requests/told-as.ts'
import { visitEntry } from '../visits/calendar.ts'
import { workEntry } from './calendar.ts'
import { findWhyCalledOffByStaff } from './call-off.ts'
import { findBooking, requireBookingRequest } from './queries.ts'

/** Of what a homeowner answers to a price, and of the day. */
export const bookingMessages = {
  accepted,
  'day-booked': dayBooked,
  'work-tomorrow': workTomorrow,
  canceled,
  'change-asked-staff': async about =>
    forStaff(
      about,
      `A change on ${about.row.number}`,
      'Your crew asks for a change to this job. Price it and send it.',
    ),
  'question-staff': async about =>
    forStaff(about, `A question on ${about.row.number}`, 'The homeowner asked something about the price.'),
  'accepted-staff': acceptedStaff,
  'day-booked-staff': dayBookedStaff,
  'not-taken-staff': async about =>
    forStaff(about, `Declined: ${about.row.number}`, 'The homeowner declined the quote.'),
  'called-off-staff': async about =>
    forStaff(about, `Canceled: ${about.row.number}`, 'The homeowner canceled the request.'),
} satisfies Partial<Record<MessageKind, WriteMessage>>

/** Where the day is still to be chosen. */
async function accepted(about: About): Promise<Message | null> {
  const { t, row } = about
  const { number } = row
  if (row.stage !== 'quoted') return null
  return {
    subject: t('remind.accepted-subject', { number }),
    paragraphs: [t('remind.accepted', { number })],
    facts: await depositFacts(about, undefined),
    link: await linkTo(about, 'booking', t('remind.choose-day')),
    brief: t('text.accepted', { number }),
  }
}

async function dayBooked(about: About): Promise<Message | null> {
  const { t, row, typed } = about
  const days = await bookedDays(about)
  if (!days) return null
  const link = await pageLink(about)
  return {
    subject: t('mail.booked-subject', { day: days[0]! }),
    paragraphs: [
      typed ? t('mail.booked', { street: typed.street }) : t('mail.booked-no-place', { number: row.number }),
    ],
    facts: [
      { term: t(days.length === 1 ? 'mail.booked-day' : 'mail.booked-days'), value: days.join('; ') },
      ...(await nearFact(about)),
      ...(await depositFacts(about, (await findBooking(about.deps.db, row.request_id))?.begins)),
    ],
    link,
    brief: t('text.booked', { day: days[0]!, number: row.number }),
    entry: await workEntry(about.deps, row.request_id, toldIn(about, link)),
  }
}

async function nearFact({ t, row, deps, language }: About) {
  const quote = await findAcceptedQuote(deps.db, row.request_id)
  if (!quote || !hasNear(quote)) return []
  return [{ term: t('near.total'), value: moneyInWords(quote.total, quote.currency, language) }]
}

/** By the clock, the day before the first one; `once` names that day, so that one that was moved is not reminded of. */
async function workTomorrow(about: About): Promise<Message | null> {
  const { t, row, typed, deps, business, language } = about
  const { number } = row
  const booking = await findBooking(deps.db, row.request_id)
  if (!booking || row.once !== workOnce(row.request_id, booking.first_day)) return null
  if (booking.first_day < dayOf(deps.now(), business.time_zone) || row.stage !== 'booked') return null
  const days = booking.days.map(share => startInWords(share, language))
  const day = days[0]!
  return {
    subject: t('remind.work-subject', { day }),
    paragraphs: [typed ? t('remind.work', { street: typed.street }) : t('remind.work-no-place', { number })],
    facts: [{ term: t(days.length === 1 ? 'mail.booked-day' : 'mail.booked-days'), value: days.join('; ') }],
    link: await pageLink(about),
    brief: t('text.work-tomorrow', { day, number }),
  }
}

/** By what the reminder of a work day is written once. */
export function workOnce(quoteRequestId: number, firstDay: string): string {
  return `work-tomorrow ${quoteRequestId} ${firstDay}`
}

/** What was called off takes along what the homeowner's calendar was given. */
async function canceled(about: About): Promise<Message | null> {
  const { t, row, typed, deps } = about
  const { number, request_id: id } = row
  const request = await requireBookingRequest(deps.db, id)
  if (request.stage !== 'called off') return null
  const link = await pageLink(about)
  const told = toldIn(about, link)
  const entry = (await workEntry(deps, id, told)) ?? (await visitEntry(deps, id, told))
  const why = await findWhyCalledOffByStaff(deps.db, id)
  const said = t(why === undefined ? 'mail.canceled' : 'moves.canceled-by-us', { number })
  return {
    subject: t('mail.canceled-subject', { number }),
    // The staff's words may name the homeowner, who this address isn't known to belong to yet.
    paragraphs: [said, ...(typed && why ? [why] : [])],
    facts: [],
    link,
    brief: t('text.canceled', { number }),
    entry,
  }
}

async function acceptedStaff(about: About): Promise<Message | null> {
  if (await bookedDays(about)) return null
  const sentence = 'The homeowner accepted the quote but hasn’t chosen a day yet. Please call about one.'
  return forStaff(about, `Accepted: ${about.row.number}`, sentence)
}

async function dayBookedStaff(about: About): Promise<Message | null> {
  const days = await bookedDays(about)
  const subject = `Booked: ${about.row.number}`
  return days && forStaff(about, subject, `The homeowner accepted the quote and booked ${days.join('; ')}.`)
}

// What is missing of the deposit, and by when it is due.
async function depositFacts({ t, row, deps, business, language }: About, firstDay: string | undefined) {
  const quote = await findAcceptedQuote(deps.db, row.request_id)
  const held = await findHeld(deps.db, row.request_id)
  const standing = quote && depositStanding(quote, held, firstDay, business, deps.now())
  if (!standing || new Decimal(held).gte(standing.asked)) return []
  const missing = moneyInWords(cents(new Decimal(standing.asked).minus(held)), quote.currency, language)
  const by = standing.due === null ? [] : [dayInWords(standing.due, language, true)]
  return [{ term: t('deposit.fact'), value: [missing, ...by].join(', ') }]
}

async function bookedDays({ deps, row, language }: About): Promise<string[] | null> {
  const booking = await findBooking(deps.db, row.request_id)
  return booking ? booking.days.map(share => startInWords(share, language)) : null
}
