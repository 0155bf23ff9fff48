import { dayInWords } from '../language/dates-in-words.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { dayOf } from '../lib/dates.ts'
import type { MessageKind } from '../outbox/kinds.ts'
import type { About, Message, WriteMessage } from '../outbox/message.ts'
import { linkTo } from '../requests/messages.ts'
import { findAcceptedQuote, findNewestQuote } from './queries.ts'

/** Of a firm price. */
export const quoteMessages = {
  'quote-ready': quoteReady,
  'follow-up': followUp,
  expiring,
} satisfies Partial<Record<MessageKind, WriteMessage>>

async function quoteReady(about: About): Promise<Message | null> {
  const { t, row, typed, deps, language } = about
  const quote = await findNewestQuote(deps.db, row.request_id)
  const link = await linkTo(about, 'booking', t('mail.quote-link'))
  if (!quote || !link || quote.accepted_at) return null
  const isFirst = quote.revision === 1
  const isChange = !quote.accepted_at && (await findAcceptedQuote(deps.db, row.request_id)) !== undefined
  const total = moneyInWords(quote.total, quote.currency, language)
  return {
    subject: t(isChange ? 'change.mail-subject' : 'mail.quote-subject', { number: row.number }),
    paragraphs: [
      isChange
        ? t('change.mail')
        : typed
          ? t(isFirst ? 'mail.quote' : 'mail.quote-again', { street: typed.street })
          : t(isFirst ? 'mail.quote-no-place' : 'mail.quote-again-no-place', { number: row.number }),
      ...(quote.choices ? [t('choose.mail')] : []),
    ],
    facts: [
      { term: t('mail.quote-total'), value: total },
      { term: t('mail.quote-holds'), value: dayInWords(quote.holds_until, language, true) },
    ],
    link,
    brief: t(isChange ? 'change.brief' : isFirst ? 'text.quote' : 'text.quote-again', {
      number: row.number,
      total,
    }),
  }
}

async function followUp(about: About): Promise<Message | null> {
  const { t, row } = about
  const { number } = row
  const waiting = await findWaiting(about, 'follow-up')
  return (
    waiting && {
      subject: t('remind.follow-up-subject', { number }),
      paragraphs: [t('remind.follow-up', { number })],
      brief: t('text.follow-up', { number }),
      ...waiting,
    }
  )
}

async function expiring(about: About): Promise<Message | null> {
  const { t, row, language } = about
  const { number } = row
  const waiting = await findWaiting(about, 'expiring')
  if (!waiting) return null
  const day = dayInWords(waiting.holdsUntil, language)
  return {
    subject: t('remind.expiring-subject', { day }),
    paragraphs: [t('remind.expiring', { number, day })],
    brief: t('text.expiring', { number, day }),
    ...waiting,
  }
}

/** What both say of the price that they were written for; null where it doesn't wait for an answer any more. */
async function findWaiting(about: About, kind: 'follow-up' | 'expiring') {
  const { t, row, deps, business, language } = about
  const quote = await findNewestQuote(deps.db, row.request_id)
  const link = await linkTo(about, 'booking', t('mail.quote-link'))
  if (!quote || !link || row.once !== quoteOnce(kind, quote.id)) return null
  const isPast = quote.holds_until < dayOf(deps.now(), business.time_zone)
  if (quote.accepted_at || isPast || row.stage !== 'quoted') return null
  const total = moneyInWords(quote.total, quote.currency, language)
  const facts = [
    { term: t('mail.quote-total'), value: total },
    { term: t('mail.quote-holds'), value: dayInWords(quote.holds_until, language, true) },
  ]
  return { facts, link, holdsUntil: quote.holds_until }
}

/** By what a reminder of a price is written once. */
export function quoteOnce(kind: 'follow-up' | 'expiring', quoteId: number): string {
  return `${kind} ${quoteId}`
}
