import type { Stage } from '../db/schema/stages.ts'
import { OUT_OF_DATE, type Overtaken, overtakenBy, TOO_LATE } from '../outbox/given-up.ts'
import { type MessageKind, OF_PRICE, OF_VISIT, OF_WORK } from '../outbox/kinds.ts'
import type { OutboxMessage } from '../outbox/queries.ts'
import { findNewestQuote } from '../quotes/queries.ts'
import { findVisitAhead } from '../visits/queries.ts'
import type { LetterDeps } from './letter.ts'

const ENDED: Partial<Record<Stage, Overtaken>> = {
  'called off': 'canceled',
  "can't do": 'turned down',
  'not taken': 'declined',
  lapsed: 'expired',
}

/** Why a message is no longer so, as a fault that is given up: as far as its request tells. */
export async function whyOvertaken({ db, now }: LetterDeps, row: OutboxMessage): Promise<string> {
  const kind = row.kind as MessageKind
  if (row.recipient !== 'homeowner') return OUT_OF_DATE
  if (kind === 'offer') return overtakenBy('offers ended')
  const ended = ENDED[row.stage]
  if (ended) return overtakenBy(ended)
  if (OF_VISIT.includes(kind)) {
    const ahead = await findVisitAhead(db, row.request_id)
    const isPast = ahead && Temporal.Instant.compare(ahead.starts_at, now()) < 0
    return isPast ? TOO_LATE : overtakenBy('visit changed')
  }
  if (OF_PRICE.includes(kind)) {
    const quote = await findNewestQuote(db, row.request_id)
    if (quote?.accepted_at) return overtakenBy('accepted')
    return overtakenBy(quote && quote.made_at > row.made_at ? 'price replaced' : 'link ended')
  }
  if (OF_WORK.includes(kind)) return overtakenBy('day changed')
  return OUT_OF_DATE
}
