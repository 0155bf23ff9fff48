import { moneyInWords } from '../language/money-in-words.ts'
import type { MessageKind } from '../outbox/kinds.ts'
import { type About, forStaff, type Message, type WriteMessage } from '../outbox/message.ts'
import { findLinkPath, type LinkPurpose } from './links.ts'

/** Of a request that came in, and of what its homeowner adds. */
export const requestMessages = {
  'request-received': requestReceived,
  receipt,
  'own-link': ownLink,
  'request-arrived': async about =>
    forStaff(about, `New request ${about.row.number}`, 'A new request has come in.'),
  'note-staff': async about =>
    forStaff(
      about,
      `A note on ${about.row.number}`,
      'The homeowner added a note or photos, or changed the phone number.',
    ),
} satisfies Partial<Record<MessageKind, WriteMessage>>

async function requestReceived(about: About): Promise<Message> {
  const { t, row, business, asksToConfirm } = about
  const days = business.answer_within_days
  const params = { number: row.number, days }
  const paragraphs = [t(days === 1 ? 'mail.received-one' : 'mail.received', params)]
  const link = await pageLink(about)
  if (!asksToConfirm) paragraphs.push(...rangeInWords(about))
  else if (link) paragraphs.push(t('mail.confirm-why'), t('mail.confirm-not-mine'))
  const subject = t('mail.received-subject', params)
  return { subject, paragraphs, facts: [], link, brief: t('text.received', params) }
}

async function receipt(about: About): Promise<Message | null> {
  const { t, row, typed } = about
  if (!typed) return null
  const facts = [
    { term: t('contact.name'), value: typed.name },
    { term: t('contact.place'), value: [typed.street, typed.postcode].filter(Boolean).join(', ') },
    { term: t('own.note'), value: typed.note },
  ]
  return {
    subject: t('mail.receipt-subject', { number: row.number }),
    paragraphs: [t('mail.receipt', { number: row.number }), ...rangeInWords(about)],
    facts: facts.filter(({ value }) => value !== ''),
    link: await pageLink(about),
    brief: t('text.received', { number: row.number }),
  }
}

/** Asked for on the homeowner's own page. */
async function ownLink(about: About): Promise<Message> {
  const brief = about.t('text.own-link', { number: about.row.number })
  return { subject: brief, paragraphs: [], facts: [], link: await pageLink(about), brief }
}

function rangeInWords(about: About): string[] {
  const { t, row } = about
  // As on the own page: of beds that the staff added nothing is told.
  if (row.low === null || row.high === null || row.sent_as !== 'beds') return [t('mail.received-no-range')]
  return [t('mail.received-range', { low: money(about, row.low), high: money(about, row.high) })]
}

/** To the homeowner's own page: of an address not confirmed by way of the page that confirms it. */
export async function pageLink(about: About) {
  const { t, asksToConfirm } = about
  return asksToConfirm
    ? linkTo(about, 'email address', t('mail.confirm'))
    : linkTo(about, 'own page', t('mail.own-page'))
}

/** The address of a standing link of a request for a message; null where there is none. */
export async function linkTo({ deps, row }: About, purpose: LinkPurpose, words: string) {
  const path = await findLinkPath(deps.db, deps.secretKey, purpose, row.request_id)
  return path ? { words, address: deps.config.publicUrl + path } : null
}

function money({ business, language }: About, amount: string): string {
  return moneyInWords(amount, business.currency, language, { whole: true })
}
