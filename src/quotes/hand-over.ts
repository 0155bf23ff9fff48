import type { FastifyReply } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { t } from '../language/catalogue.ts'
import { dayInWords, momentInWords } from '../language/dates-in-words.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { mailto, sms } from '../lib/contact-links.ts'
import { findLinkPath, findStandingLink } from '../requests/links.ts'
import { requireRequest } from '../requests/queries.ts'
import { findNewestQuote, findSent, isWithdrawn } from './queries.ts'

export interface HandOverPage {
  number: string
  customer: string
  total: string
  revision: number
  holdsUntil: string
  inSpanish: boolean
  mailed: boolean
  /** Why there is nothing to send: it was accepted, or taken back; '' while it waits for an answer. */
  over: string
  /** When somebody of the staff sent it by hand. */
  sent: string | null
  /** Which link stands, as the form that replaces it carries it; null for none. */
  standing: number | null
  /** The address that reads and can't accept. */
  readingLink: string | null
  link: { address: string; words: string; mailto: string | null; sms: string | null } | null
}

const ACCEPTED = 'They accepted this quote, so there’s nothing to send. Their link still shows it.'
const WITHDRAWN =
  'You took this change back, so there’s nothing to send. Their link shows what was accepted before.'

/**
 * The booking link with a text to go with it, in the homeowner's language.
 * @throws {Conflict} while there is no quote
 */
export async function showHandOver(deps: Deps, reply: FastifyReply, number: string): Promise<FastifyReply> {
  const wanted = await requireRequest(deps.db, number)
  const business = await requireBusiness(deps.db)
  const quote = await findNewestQuote(deps.db, wanted.id)
  if (!quote) throw new Conflict('quote.none', { number })
  const sent = await findSent(deps.db, quote.id)
  const path = await findLinkPath(deps.db, deps.secretKey, 'booking', wanted.id)
  const standing = await findStandingLink(deps.db, deps.secretKey, 'booking', wanted.id, deps.now())
  const reading = await findLinkPath(deps.db, deps.secretKey, 'reading', wanted.id)
  const language = wanted.customer_language
  const address = path && deps.config.publicUrl + path
  const facts = {
    total: moneyInWords(quote.total, quote.currency, language),
    until: dayInWords(quote.holds_until, language),
    link: address ?? '',
    business: business.name,
  }
  const isChange = wanted.stage === 'booked'
  const named = { ...facts, name: wanted.customer_name }
  const words = t(language, isChange ? 'change.hand-over' : 'quote.hand-over', named)
  // Whoever sent the request may have given somebody else's address, and a name to be read there.
  const mail = wanted.email_confirmed_at
    ? words
    : t(language, isChange ? 'change.hand-over-unnamed' : 'quote.hand-over-unnamed', facts)
  const subject = t(language, 'quote.subject', { business: business.name })
  return reply.page('quotes/hand-over', {
    number,
    customer: wanted.customer_name,
    total: moneyInWords(quote.total, quote.currency, 'en'),
    revision: quote.revision,
    holdsUntil: dayInWords(quote.holds_until, 'en', true),
    inSpanish: language === 'es',
    over: quote.accepted_at ? ACCEPTED : (await isWithdrawn(deps.db, quote.id)) ? WITHDRAWN : '',
    sent: sent ? momentInWords(sent.sent_at, business.time_zone, 'en') : null,
    standing: standing?.id ?? null,
    readingLink: reading ? deps.config.publicUrl + reading : null,
    mailed: wanted.email !== '' && deps.config.smtpUrl !== undefined,
    link: address
      ? { address, words, mailto: mailto(wanted.email, subject, mail), sms: sms(wanted.phone, words) }
      : null,
    scripts: ['copy.js'],
  })
}
