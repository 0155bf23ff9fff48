import type { MessageKind } from '../outbox/kinds.ts'
import { type About, forStaff, type Message, type WriteMessage } from '../outbox/message.ts'
import { pageLink } from '../requests/messages.ts'
import { findBooking } from './queries.ts'
import { weekOf } from './week-words.ts'

/** Of a week that is chosen; its day is told as any other that is booked. */
export const weekMessages = {
  'week-chosen': weekChosen,
  'week-chosen-staff': weekChosenStaff,
} satisfies Partial<Record<MessageKind, WriteMessage>>

async function weekChosen(about: About): Promise<Message | null> {
  const { t, row, language } = about
  const week = await findWeek(about, language)
  if (!week) return null
  return {
    subject: t('week.subject', { week: week.words }),
    paragraphs: [t('week.mail', { week: week.words, number: row.number })],
    facts: [{ term: t('week.mail-day-by'), value: week.sayBy }],
    link: await pageLink(about),
    brief: t('text.week-chosen', { week: week.words, number: row.number }),
  }
}

async function weekChosenStaff(about: About): Promise<Message | null> {
  const week = await findWeek(about, 'en')
  if (!week) return null
  const sentence = `The homeowner chose ${week.words}. Pick the day by ${week.sayBy}, on Days or on the request.`
  return forStaff(about, `Booked for a week: ${about.row.number}`, sentence)
}

async function findWeek({ deps, row }: About, language: 'en' | 'es') {
  if (row.stage !== 'week chosen') return null
  return weekOf(await findBooking(deps.db, row.request_id), language)
}
