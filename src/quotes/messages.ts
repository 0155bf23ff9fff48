import { dayInWords } from '../language/dates-in-words.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import type { About, Message, WriteMessage } from '../outbox/message.ts'
import type { MessageKind } from '../outbox/outbox.ts'
import { linkTo } from '../requests/messages.ts'
import { findNewestQuote } from './queries.ts'

/** Of a firm price. */
export const quoteMessages = {
  'quote-ready': quoteReady,
} satisfies Partial<Record<MessageKind, WriteMessage>>

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
