import { momentInWords } from '../language/dates-in-words.ts'
import type { About, Message, WriteMessage } from '../outbox/message.ts'
import type { MessageKind } from '../outbox/outbox.ts'
import { linkTo } from '../requests/messages.ts'
import { findVisitAhead } from './queries.ts'

/** Of a visit. */
export const visitMessages = {
  'visit-set': visitSet,
} satisfies Partial<Record<MessageKind, WriteMessage>>

async function visitSet(about: About): Promise<Message | null> {
  const { t, row, business, deps } = about
  const ahead = await findVisitAhead(deps.db, row.request_id)
  if (!ahead) return null
  const when = momentInWords(ahead.starts_at, business.time_zone, about.language)
  return {
    subject: t('mail.visit-subject', { when }),
    paragraphs: [t('mail.visit', { street: row.street, number: row.number })],
    facts: [{ term: t('mail.visit-when'), value: when }],
    link: await linkTo(about, 'own page', t('mail.own-page')),
  }
}
