import { momentInWords } from '../language/dates-in-words.ts'
import type { About, Message, WriteMessage } from '../outbox/message.ts'
import type { MessageKind } from '../outbox/outbox.ts'
import { pageLink } from '../requests/messages.ts'
import { findVisitAhead } from './queries.ts'

/** Of a visit. */
export const visitMessages = {
  'visit-set': visitSet,
} satisfies Partial<Record<MessageKind, WriteMessage>>

async function visitSet(about: About): Promise<Message | null> {
  const { t, row, typed, business, deps } = about
  const ahead = await findVisitAhead(deps.db, row.request_id)
  if (!ahead) return null
  const when = momentInWords(ahead.starts_at, business.time_zone, about.language)
  return {
    subject: t('mail.visit-subject', { when }),
    paragraphs: [
      typed
        ? t('mail.visit', { street: typed.street, number: row.number })
        : t('mail.visit-no-place', { number: row.number }),
    ],
    facts: [{ term: t('mail.visit-when'), value: when }],
    link: await pageLink(about),
    brief: t('text.visit', { when, number: row.number }),
  }
}
