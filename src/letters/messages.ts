import type { Business } from '../account/queries.ts'
import { findBooking } from '../bookings/queries.ts'
import type { Language } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import type { Translate } from '../http/render.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { dayInWords, momentInWords } from '../lib/dates.ts'
import type { MessageKind } from '../outbox/outbox.ts'
import { findNewestQuote } from '../queue/queries.ts'
import { findLinkPath, type LinkPurpose } from '../requests/links.ts'
import { findVisitAhead, type OutboxMessage } from './queries.ts'

/** What a message says, before it is laid out as text and as HTML. */
export interface Message {
  subject: string
  paragraphs: string[]
  facts: { term: string; value: string }[]
  link: { words: string; address: string } | null
}

/** What a message is about, and in whose words. */
export interface About {
  deps: Deps
  row: OutboxMessage
  business: Business
  language: Language
  t: Translate
}

/** One function for each message; null when things have moved on and it would say what is no longer so. */
export const messages: Record<MessageKind, (about: About) => Promise<Message | null>> = {
  'request-received': requestReceived,
  'visit-set': visitSet,
  'quote-ready': quoteReady,
  'day-booked': dayBooked,
  'request-arrived': about =>
    forStaff(about, `New request ${about.row.number}`, 'A quote request has come in.'),
  'accepted-staff': acceptedStaff,
  'day-booked-staff': dayBookedStaff,
  'not-taken-staff': about =>
    forStaff(about, `Not taken: ${about.row.number}`, 'The homeowner does not take the quote this time.'),
  'called-off-staff': about =>
    forStaff(about, `Called off: ${about.row.number}`, 'The homeowner has called the request off.'),
  'note-staff': about =>
    forStaff(
      about,
      `A note on ${about.row.number}`,
      'The homeowner has added a note or changed the phone number.',
    ),
}

async function requestReceived(about: About): Promise<Message> {
  const { t, row, business } = about
  const days = business.answer_within_days
  const params = { number: row.number, street: row.street, days }
  const paragraphs = [t(days === 1 ? 'mail.received-one' : 'mail.received', params)]
  if (row.low !== null && row.high !== null) {
    paragraphs.push(t('mail.received-range', { low: money(about, row.low), high: money(about, row.high) }))
  }
  const link = await linkTo(about, 'own page', t('mail.own-page'))
  return { subject: t('mail.received-subject', params), paragraphs, facts: [], link }
}

async function visitSet(about: About): Promise<Message | null> {
  const { t, row, business, deps } = about
  const startsAt = await findVisitAhead(deps.db, row.request_id)
  if (!startsAt) return null
  const when = momentInWords(startsAt, business.time_zone, about.language)
  return {
    subject: t('mail.visit-subject', { when }),
    paragraphs: [t('mail.visit', { street: row.street, number: row.number })],
    facts: [{ term: t('mail.visit-when'), value: when }],
    link: await linkTo(about, 'own page', t('mail.own-page')),
  }
}

async function quoteReady(about: About): Promise<Message | null> {
  const { t, row, deps, language } = about
  const quote = await findNewestQuote(deps.db, row.request_id)
  const link = await linkTo(about, 'booking', t('mail.quote-link'))
  if (!quote || !link) return null
  const key = quote.revision === 1 ? 'mail.quote' : 'mail.quote-again'
  return {
    subject: t('mail.quote-subject', { number: row.number }),
    paragraphs: [t(key, { street: row.street })],
    facts: [
      { term: t('mail.quote-total'), value: moneyInWords(quote.total, quote.currency, language) },
      { term: t('mail.quote-holds'), value: dayInWords(quote.holds_until, language, true) },
    ],
    link,
  }
}

async function dayBooked(about: About): Promise<Message | null> {
  const { t, row } = about
  const days = await bookedDays(about)
  if (!days) return null
  return {
    subject: t('mail.booked-subject', { day: days[0]! }),
    paragraphs: [t('mail.booked', { street: row.street })],
    facts: [{ term: t(days.length === 1 ? 'mail.booked-day' : 'mail.booked-days'), value: days.join('; ') }],
    link: await linkTo(about, 'own page', t('mail.own-page')),
  }
}

async function acceptedStaff(about: About): Promise<Message | null> {
  if (await bookedDays(about)) return null
  const sentence = 'The homeowner has accepted the quote and has not chosen a day yet: ring about one.'
  return forStaff(about, `Accepted: ${about.row.number}`, sentence)
}

async function dayBookedStaff(about: About): Promise<Message | null> {
  const days = await bookedDays(about)
  const subject = `Booked: ${about.row.number}`
  return (
    days && forStaff(about, subject, `The homeowner has accepted the quote and booked ${days.join('; ')}.`)
  )
}

/** Says no more than which request it is: the rest is behind the sign-in, and mailboxes get read by others. */
async function forStaff({ deps, row }: About, subject: string, sentence: string): Promise<Message> {
  const link = { words: 'Look at it', address: `${deps.config.publicUrl}/queue/${row.number}` }
  return { subject, paragraphs: [sentence], facts: [], link }
}

async function bookedDays({ deps, row, language }: About): Promise<string[] | null> {
  const booking = await findBooking(deps.db, row.request_id)
  return booking ? booking.days.map(({ day }) => dayInWords(day, language)) : null
}

async function linkTo({ deps, row }: About, purpose: LinkPurpose, words: string) {
  const path = await findLinkPath(deps.db, deps.secretKey, purpose, row.request_id)
  return path ? { words, address: deps.config.publicUrl + path } : null
}

function money({ business, language }: About, amount: string): string {
  return moneyInWords(amount, business.currency, language, { whole: true })
}
