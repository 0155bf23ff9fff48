import { startInWords } from '../days/start.ts'
import { dayInWords, momentInWords } from '../language/dates-in-words.ts'
import type { MessageKind } from '../outbox/kinds.ts'
import { type About, forStaff, type Message, type WriteMessage } from '../outbox/message.ts'
import { linkTo, pageLink } from '../requests/messages.ts'
import { findAnswered, isOver } from './day-asked.ts'
import { findBooking } from './queries.ts'

/** Of a day that is asked for, and of one that can't be. */
export const askedMessages = {
  'day-asked': dayAsked,
  'day-declined': dayDeclined,
  'day-hold-ended': holdEnded,
  'day-asked-staff': dayAskedStaff,
} satisfies Partial<Record<MessageKind, WriteMessage>>

async function dayAsked(about: About): Promise<Message | null> {
  const { t, row, language, business } = about
  const asked = await findAsked(about)
  if (!asked) return null
  const days = asked.days.map(share => startInWords(share, language))
  return {
    subject: t('asked.subject', { day: days[0]! }),
    paragraphs: [t('asked.mail', { number: row.number })],
    facts: [
      { term: t(days.length === 1 ? 'mail.booked-day' : 'mail.booked-days'), value: days.join('; ') },
      { term: t('asked.until'), value: momentInWords(asked.held_until!, business.time_zone, language) },
    ],
    link: await pageLink(about),
    brief: t('text.day-asked', { day: days[0]!, number: row.number }),
  }
}

async function dayDeclined(about: About): Promise<Message | null> {
  const { t, row, language, typed, deps } = about
  const answered = row.stage === 'quoted' ? await findAnswered(deps.db, row.request_id) : undefined
  if (!answered?.isDeclined) return null
  const { offered, words } = answered
  return {
    subject: t('asked.declined-subject', { number: row.number }),
    // The staff's words may name the homeowner, who this address isn't known to belong to yet.
    paragraphs: [t('asked.declined', { number: row.number }), ...(typed && words ? [words] : [])],
    facts: offered ? [{ term: t('asked.suggests'), value: dayInWords(offered, language) }] : [],
    link: await linkTo(about, 'booking', t('remind.choose-day')),
    brief: t('text.day-declined', { number: row.number }),
  }
}

async function holdEnded(about: About): Promise<Message | null> {
  const { t, row, deps } = about
  const answered = row.stage === 'quoted' ? await findAnswered(deps.db, row.request_id) : undefined
  if (!answered || answered.isDeclined) return null
  return {
    subject: t('asked.ended-subject', { number: row.number }),
    paragraphs: [t('asked.ended')],
    facts: [],
    link: await linkTo(about, 'booking', t('remind.choose-day')),
    brief: t('text.day-hold-ended', { number: row.number }),
  }
}

async function dayAskedStaff(about: About): Promise<Message | null> {
  const asked = await findAsked(about)
  if (!asked) return null
  const day = startInWords(asked.days[0]!, 'en')
  const until = momentInWords(asked.held_until!, about.business.time_zone, 'en')
  const sentence = `The homeowner asks for ${day}. It’s held until ${until}: confirm it, or offer another day.`
  return forStaff(about, `Asked for ${day}: ${about.row.number}`, sentence)
}

async function findAsked({ deps, row }: About) {
  const standing = row.stage === 'day asked' ? await findBooking(deps.db, row.request_id) : undefined
  return standing && !isOver(standing, deps.now()) ? standing : undefined
}
