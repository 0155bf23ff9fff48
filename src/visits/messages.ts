import { momentInWords } from '../language/dates-in-words.ts'
import type { MessageKind } from '../outbox/kinds.ts'
import { type About, forStaff, type Message, type WriteMessage } from '../outbox/message.ts'
import { wasSent } from '../outbox/queries.ts'
import { pageLink } from '../requests/messages.ts'
import { toldIn } from '../requests/told-as.ts'
import { visitEntry } from './calendar.ts'
import { findOffers } from './offered-times.ts'
import { findVisitAhead } from './queries.ts'

/** Of a visit. */
export const visitMessages = {
  'visit-set': visitSet,
  'visit-off': visitOff,
  'visit-times': visitTimes,
  'visit-staff': async about =>
    forStaff(
      about,
      `Visit: ${about.row.number}`,
      'The homeowner picked a time for the visit, moved it, or canceled it.',
    ),
  'visit-tomorrow': visitTomorrow,
} satisfies Partial<Record<MessageKind, WriteMessage>>

async function visitSet(about: About): Promise<Message | null> {
  const { t, row, typed, business, deps } = about
  const ahead = await findVisitAhead(deps.db, row.request_id)
  if (!ahead || Temporal.Instant.compare(ahead.starts_at, deps.now()) < 0) return null
  const when = momentInWords(ahead.starts_at, business.time_zone, about.language)
  const isMoved = await wasSent(deps.db, row.request_id, 'visit-set', row.id)
  const link = await pageLink(about)
  return {
    subject: t(isMoved ? 'mail.visit-moved-subject' : 'mail.visit-subject', { when }),
    paragraphs: [
      typed
        ? t('mail.visit', { street: typed.street, number: row.number })
        : t('mail.visit-no-place', { number: row.number }),
    ],
    facts: [{ term: t('mail.visit-when'), value: when }],
    link,
    brief: t('text.visit', { when, number: row.number }),
    entry: await visitEntry(deps, row.request_id, toldIn(about, link)),
  }
}

/** While there are times ahead to pick from. */
async function visitTimes(about: About): Promise<Message | null> {
  const { t, row, business, deps, language } = about
  const { number } = row
  const offered = await findOffers(deps.db, row.request_id, deps.now())
  if (offered.length === 0) return null
  const times = offered.map(time => momentInWords(time.toString(), business.time_zone, language))
  return {
    subject: t('visits.times-subject', { number }),
    paragraphs: [t('visits.times', { number })],
    facts: [{ term: t('visits.times-term'), value: times.join('; ') }],
    link: await pageLink(about),
    brief: t('text.visit-times', { number }),
  }
}

/** Where nobody was told of the visit there is nothing to take back. */
async function visitOff(about: About): Promise<Message | null> {
  const { t, row, deps } = about
  const { number } = row
  if (await findVisitAhead(deps.db, row.request_id)) return null
  if (!(await wasSent(deps.db, row.request_id, 'visit-set'))) return null
  const link = await pageLink(about)
  return {
    subject: t('mail.visit-off-subject', { number }),
    paragraphs: [t('mail.visit-off', { number })],
    facts: [],
    link,
    brief: t('text.visit-off', { number }),
    entry: await visitEntry(deps, row.request_id, toldIn(about, link)),
  }
}

/** By the clock, the day before; `once` names the very visit, so that one that was moved is not reminded of. */
async function visitTomorrow(about: About): Promise<Message | null> {
  const { t, row, typed, business, deps } = about
  const { number } = row
  const ahead = await findVisitAhead(deps.db, row.request_id)
  if (!ahead || row.once !== visitOnce(ahead.id)) return null
  if (Temporal.Instant.compare(ahead.starts_at, deps.now()) < 0) return null
  const when = momentInWords(ahead.starts_at, business.time_zone, about.language)
  return {
    subject: t('remind.visit-subject', { when }),
    paragraphs: [
      typed ? t('remind.visit', { street: typed.street, number }) : t('remind.visit-no-place', { number }),
    ],
    facts: [{ term: t('mail.visit-when'), value: when }],
    link: await pageLink(about),
    brief: t('text.visit-tomorrow', { when, number }),
  }
}

/** By what the reminder of a visit is written once. */
export function visitOnce(visitId: number): string {
  return `visit-tomorrow ${visitId}`
}
