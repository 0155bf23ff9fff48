import { moneyInWords } from '../language/money-in-words.ts'
import { type About, forStaff, type Message, type WriteMessage } from '../outbox/message.ts'
import type { MessageKind } from '../outbox/outbox.ts'
import { findLinkPath, type LinkPurpose } from './links.ts'

/** Of a request that came in, and of what its homeowner adds. */
export const requestMessages = {
  'request-received': requestReceived,
  'request-arrived': async about =>
    forStaff(about, `New request ${about.row.number}`, 'A quote request has come in.'),
  'note-staff': async about =>
    forStaff(
      about,
      `A note on ${about.row.number}`,
      'The homeowner has added a note or changed the phone number.',
    ),
} satisfies Partial<Record<MessageKind, WriteMessage>>

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

/** The address of a request's own page or booking link for a message; null where there is none. */
export async function linkTo({ deps, row }: About, purpose: LinkPurpose, words: string) {
  const path = await findLinkPath(deps.db, deps.secretKey, purpose, row.request_id)
  return path ? { words, address: deps.config.publicUrl + path } : null
}

function money({ business, language }: About, amount: string): string {
  return moneyInWords(amount, business.currency, language, { whole: true })
}
