import type { MessageKind } from '../outbox/kinds.ts'
import type { About, Message, WriteMessage } from '../outbox/message.ts'
import { wasSent } from '../outbox/queries.ts'
import { pageLink } from '../requests/messages.ts'
import { toldIn } from '../requests/told-as.ts'
import { visitEntry } from '../visits/calendar.ts'
import { findWhyTurnedDown } from './cannot-do.ts'
import { findStage } from './queries.ts'

/** Of a request that is turned down, and of that taken back. */
export const turnedDownMessages = {
  'turned-down': turnedDown,
  'taken-back': takenBack,
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
