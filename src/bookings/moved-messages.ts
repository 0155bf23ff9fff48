import { startInWords } from '../days/start.ts'
import type { MessageKind } from '../outbox/kinds.ts'
import { type About, forStaff, type Message, type WriteMessage } from '../outbox/message.ts'
import { pageLink } from '../requests/messages.ts'
import { toldIn } from '../requests/told-as.ts'
import { workEntry } from './calendar.ts'
import { findWorkAhead } from './work-ahead.ts'

/** Of work that was moved, and of a day that doesn't suit. */
export const movedMessages = {
  'day-moved': about =>
    moved(about, { subject: 'moves.subject', mail: 'moves.mail', text: 'text.day-moved' }),
  'rain-moved': about =>
    moved(about, { subject: 'moves.rain-subject', mail: 'moves.rain', text: 'text.rain-moved' }),
  'day-moved-staff': async about =>
    forStaff(about, `Moved: ${about.row.number}`, 'The homeowner moved the work to another day.'),
  'unsuited-staff': async about =>
    forStaff(
      about,
      `Doesn’t suit: ${about.row.number}`,
      'The homeowner says that the day or the time doesn’t suit them. Please call about another.',
    ),
} satisfies Partial<Record<MessageKind, WriteMessage>>

interface Sentences {
  subject: 'moves.subject' | 'moves.rain-subject'
  mail: 'moves.mail' | 'moves.rain'
  text: 'text.day-moved' | 'text.rain-moved'
}

async function moved(about: About, { subject, mail, text }: Sentences): Promise<Message | null> {
  const { t, row, deps, language } = about
  const { number } = row
  const work = await findWorkAhead(deps.db, row.request_id)
  if (!work) return null
  const { ahead } = work
  const days = ahead.map(share => startInWords(share, language))
  const first = await findNewDay(about)
  const day = startInWords(ahead.find(share => share.day === first) ?? ahead[0]!, language)
  const link = await pageLink(about)
  return {
    subject: t(subject, { day }),
    paragraphs: [t(mail, { number })],
    facts: [{ term: t(days.length === 1 ? 'mail.booked-day' : 'mail.booked-days'), value: days.join('; ') }],
    link,
    brief: t(text, { day, number }),
    entry: await workEntry(deps, row.request_id, toldIn(about, link)),
  }
}

/** The first day on which they weren't coming before: of work that has begun, another than its first. */
async function findNewDay({ deps, row }: About): Promise<string | undefined> {
  const last = await deps.db
    .selectFrom('history')
    .select('detail')
    .where('quote_request_id', '=', row.request_id)
    .where('verb', 'in', ['work moved', 'moved for rain'])
    .orderBy('id', 'desc')
    .limit(1)
    .executeTakeFirst()
  const { from = '', to = '' } = last?.detail ?? {}
  return to.split(' ').find(day => day !== '' && !from.split(' ').includes(day))
}
