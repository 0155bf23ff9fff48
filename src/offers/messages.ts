import type { MessageKind } from '../outbox/kinds.ts'
import type { About, Message, WriteMessage } from '../outbox/message.ts'
import { findConsenting } from '../places/consent.ts'
import { linkTo } from '../requests/messages.ts'
import { findOffer } from './queries.ts'
import { stopPath } from './stop-link.ts'

/** What sells: written only while the consent for its way stands. */
export const offerMessages = {
  offer,
} satisfies Partial<Record<MessageKind, WriteMessage>>

async function offer(about: About): Promise<Message | null> {
  const { t, row, deps, business, language } = about
  const { number } = row
  const found = row.offer_id === null ? undefined : await findOffer(deps.db, row.offer_id)
  if (!found || business.postal_address === '' || row.is_quiet) return null
  const consenting = await findConsenting(deps.db, row.way, [row.customer_id])
  if (consenting.length === 0) return null
  const words = language === 'es' ? found.words_es : found.words_en
  const isMail = row.way === 'mail'
  return {
    subject: t('offers.subject', { number }),
    paragraphs: [t('offers.hello-again'), words].filter(Boolean),
    facts: [],
    link: await linkTo(about, 'own page', t('offers.page')),
    brief: t('offers.brief', { number }),
    selling: isMail
      ? {
          why: t('offers.why'),
          postalAddress: business.postal_address,
          stopWords: t('offers.stop'),
          stop: deps.config.publicUrl + stopPath(deps.secretKey, row.id),
        }
      : undefined,
  }
}
