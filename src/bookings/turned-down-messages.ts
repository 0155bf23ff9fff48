import type { MessageKind } from '../outbox/kinds.ts'
import type { About, Message, WriteMessage } from '../outbox/message.ts'
import { wasSent } from '../outbox/queries.ts'
import { findNewestQuote, findSent, isWithdrawn } from '../quotes/queries.ts'
import { pageLink } from '../requests/messages.ts'
import { toldIn } from '../requests/told-as.ts'
import { visitEntry } from '../visits/calendar.ts'
import { findWhyTurnedDown } from './cannot-do.ts'
import { findStage } from './queries.ts'

/** Of what the business takes back or turns down: a request, that again, a change to booked work. */
export const turnedDownMessages = {
  'turned-down': turnedDown,
  'taken-back': takenBack,
  'change-withdrawn': changeWithdrawn,
} satisfies Partial<Record<MessageKind, WriteMessage>>

async function turnedDown(about: About): Promise<Message | null> {
  const { t, row, typed, deps } = about
  const why = await findWhyTurnedDown(deps.db, row.request_id)
  if ((await findStage(deps.db, row.request_id)) !== "can't do") return null
  const link = await pageLink(about)
  const visit = await visitEntry(deps, row.request_id, toldIn(about, link))
  const reason = why && why.reason !== 'other' ? ` ${t(`sorry.${why.reason}`)}` : ''
  return {
    subject: t('sorry.subject', { number: row.number }),
    paragraphs: [
      t('sorry.mail') + reason,
      // The contractor's words may name the homeowner, who this address isn't known to belong to yet.
      ...(typed && why?.words ? [why.words] : []),
      t('sorry.questions'),
    ],
    facts: [],
    link,
    brief: t('text.turned-down', { number: row.number }),
    entry: visit?.isCanceled ? visit : undefined,
  }
}

async function takenBack(about: About): Promise<Message | null> {
  const { t, row, deps } = about
  const isTurnedDown = (await findStage(deps.db, row.request_id)) === "can't do"
  if (isTurnedDown || !(await wasSent(deps.db, row.request_id, 'turned-down'))) return null
  return {
    subject: t('sorry.back-subject', { number: row.number }),
    paragraphs: [t('sorry.back')],
    facts: [],
    link: await pageLink(about),
    brief: t('text.taken-back', { number: row.number }),
  }
}

/** To whoever may have read of the change; none while it is a newer one that waits. */
async function changeWithdrawn(about: About): Promise<Message | null> {
  const { t, row, deps } = about
  const { number } = row
  const quote = await findNewestQuote(deps.db, row.request_id)
  if (!quote || !(await isWithdrawn(deps.db, quote.id)) || !(await wasTold(deps.db, row.request_id, quote)))
    return null
  return {
    subject: t('change.withdrawn-subject', { number }),
    paragraphs: [t('change.withdrawn-mail', { number })],
    facts: [],
    link: await pageLink(about),
    brief: t('change.withdrawn-brief', { number }),
  }
}

async function wasTold(
  db: About['deps']['db'],
  quoteRequestId: number,
  { id, made_at }: { id: number; made_at: string },
): Promise<boolean> {
  const mailed = await db
    .selectFrom('outbox')
    .select('id')
    .where('quote_request_id', '=', quoteRequestId)
    .where('kind', '=', 'quote-ready')
    .where('sent_at', '>=', made_at)
    .executeTakeFirst()
  return mailed !== undefined || (await findSent(db, id)) !== undefined
}
