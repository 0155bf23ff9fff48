import { randomUUID } from 'node:crypto'
import type { Transaction } from 'kysely'
import type { OutboxTable, Way } from '../db/schema/letters.ts'
import type { Database } from '../db/schema.ts'
import type { Jobs } from '../deps.ts'
import { choiceOf } from './choices.ts'
import { hasGateway } from './gateway.ts'
import { OUT_OF_DATE, type Overtaken, overtakenBy } from './given-up.ts'
import { type MessageKind, OF_PRICE, OF_VISIT, OF_WORK } from './kinds.ts'

interface Overtaking {
  kinds: MessageKind[]
  as: Overtaken
}

/** Which unsent messages to the homeowner are overtaken by what another one tells, beyond one of the same kind. */
const OVERTAKES: Partial<Record<MessageKind, Overtaking>> = {
  'visit-set': { kinds: OF_VISIT, as: 'visit changed' },
  'visit-off': { kinds: OF_VISIT, as: 'visit changed' },
  'quote-ready': { kinds: [...OF_VISIT, ...OF_PRICE], as: 'price replaced' },
  accepted: { kinds: [...OF_VISIT, ...OF_PRICE, 'accepted'], as: 'accepted' },
  'day-asked': { kinds: [...OF_VISIT, ...OF_PRICE, 'accepted', ...OF_WORK], as: 'day changed' },
  'week-chosen': { kinds: [...OF_VISIT, ...OF_PRICE, 'accepted', ...OF_WORK], as: 'day changed' },
  'day-declined': { kinds: OF_WORK, as: 'day changed' },
  'day-hold-ended': { kinds: OF_WORK, as: 'day changed' },
  'day-booked': { kinds: [...OF_VISIT, ...OF_PRICE, 'accepted', ...OF_WORK], as: 'day changed' },
  'day-moved': { kinds: OF_WORK, as: 'day changed' },
  'rain-moved': { kinds: OF_WORK, as: 'day changed' },
  'turned-down': { kinds: [...OF_VISIT, ...OF_PRICE, 'turned-down', 'taken-back'], as: 'turned down' },
  'taken-back': { kinds: ['turned-down', 'taken-back'], as: 'taken back' },
  'not-taken-staff': { kinds: [...OF_VISIT, ...OF_PRICE], as: 'declined' },
  canceled: {
    kinds: [...OF_VISIT, ...OF_PRICE, 'accepted', ...OF_WORK, 'request-received', 'receipt', 'own-link'],
    as: 'canceled',
  },
}

/** What a message is put into the outbox with, beyond what it is. */
export interface Putting {
  way?: Way
  /** What is said by it once only; a second one is not written. */
  once?: string
  /** Why it won't be sent, as a fault that is given up: it is written to be seen. */
  dropped?: string
  offerId?: number
}

/**
 * Puts a message into the outbox and its sending into the job queue, both in the transaction that causes it; none that
 * the owner switched off. What it overtakes is dropped either way: what is unsent to the homeowner of the same kind
 * would say the same.
 */
export async function putInOutbox(
  trx: Transaction<Database>,
  jobs: Jobs,
  kind: MessageKind,
  recipient: OutboxTable['recipient'],
  quoteRequestId: number,
  at: Temporal.Instant,
  { way = 'mail', once, dropped, offerId }: Putting = {},
): Promise<void> {
  const { kinds, as } = OVERTAKES[kind] ?? {
    kinds: recipient === 'homeowner' && kind !== 'offer' ? [kind] : [],
    as: undefined,
  }
  const choice = await choiceOf(trx, kind)
  const id = randomUUID()
  const forDigest = recipient === 'owner' && choice === 'daily'
  if (choice !== 'off') {
    const made = await trx
      .insertInto('outbox')
      .values({
        id,
        kind,
        recipient,
        way,
        quote_request_id: quoteRequestId,
        made_at: at.toString(),
        tried_from: at.toString(),
        sent_at: null,
        last_fault: dropped ?? null,
        once: once ?? null,
        for_digest: forDigest,
        offer_id: offerId ?? null,
      })
      .onConflict(conflict => conflict.column('once').doNothing())
      .returning('id')
      .executeTakeFirst()
    if (!made) return
  }
  if (kinds.length > 0) await dropUnsent(trx, quoteRequestId, kinds, as, id)
  if (choice !== 'off' && !forDigest && !dropped) await putOn(trx, jobs, id, way)
}

/** Puts the sending of a message on; a text that is to be passed on by hand only waits. */
export async function putOn(trx: Transaction<Database>, jobs: Jobs, id: string, way: Way): Promise<void> {
  if (way === 'mail') await jobs.sendMail(trx, id)
  else if (await hasGateway(trx)) await jobs.sendText(trx, id)
}

/** Drops what is unsent of these messages about a request, but for one, as things have moved on. */
export async function dropUnsent(
  trx: Transaction<Database>,
  quoteRequestId: number,
  kinds: MessageKind[],
  as?: Overtaken,
  except?: string,
): Promise<void> {
  await trx
    .updateTable('outbox')
    .set({ last_fault: as ? overtakenBy(as) : OUT_OF_DATE })
    .where('quote_request_id', '=', quoteRequestId)
    .where('recipient', '=', 'homeowner')
    .where('kind', 'in', kinds)
    .where('sent_at', 'is', null)
    .where(eb => eb.or([eb('last_fault', 'is', null), eb('last_fault', 'not like', 'dropped: %')]))
    .$if(except !== undefined, query => query.where('id', '<>', except!))
    .execute()
}
