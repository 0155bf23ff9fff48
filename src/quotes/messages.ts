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
  const { t, row, typed, deps, language } = about
  const quote = await findNewestQuote(deps.db, row.request_id)
  const link = await linkTo(about, 'booking', t('mail.quote-link'))
  if (!quote || !link) return null
  const isFirst = quote.revision === 1
  const total = moneyInWords(quote.total, quote.currency, language)
  return {
    subject: t('mail.quote-subject', { number: row.number }),
    paragraphs: [
      typed
        ? t(isFirst ? 'mail.quote' : 'mail.quote-again', { street: typed.street })
        : t(isFirst ? 'mail.quote-no-place' : 'mail.quote-again-no-place', { number: row.number }),
    ],
    facts: [
      { term: t('mail.quote-total'), value: total },
      { term: t('mail.quote-holds'), value: dayInWords(quote.holds_until, language, true) },
    ],
    link,
    brief: t(isFirst ? 'text.quote' : 'text.quote-again', { number: row.number, total }),
  }
}
