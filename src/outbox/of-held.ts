import { randomUUID } from 'node:crypto'
import type { Kysely, Transaction } from 'kysely'
import type { Way } from '../db/schema/letters.ts'
import type { Database } from '../db/schema.ts'
import type { Jobs } from '../deps.ts'
import { choiceOf } from './choices.ts'
import type { HeldMessage } from './kinds.ts'

/** Asks whoever sent what is held whether it was them; the message goes with what is held. */
export async function putWasItYou(
  trx: Transaction<Database>,
  jobs: Jobs,
  maybeJunkId: number,
  way: Way,
  at: Temporal.Instant,
): Promise<void> {
  const id = randomUUID()
  await trx
    .insertInto('outbox')
    .values({ ...unsent(id, 'was-it-you', at), recipient: 'held', way, maybe_junk_id: maybeJunkId })
    .execute()
  await (way === 'mail' ? jobs.sendMail(trx, id) : jobs.sendText(trx, id))
}

/** Tells the owner that something is held, once for each `once`, unless that is switched off. */
export async function putHeldForOwner(
  trx: Transaction<Database>,
  jobs: Jobs,
  once: string,
  at: Temporal.Instant,
): Promise<void> {
  if ((await choiceOf(trx, 'held-staff')) === 'off') return
  const id = randomUUID()
  const made = await trx
    .insertInto('outbox')
    .values({ ...unsent(id, 'held-staff', at), recipient: 'owner', once })
    .onConflict(conflict => conflict.column('once').doNothing())
    .returning('id')
    .executeTakeFirst()
  if (made) await jobs.sendMail(trx, id)
}

/** A message of the outbox about what is held; undefined where it is about something else. */
export async function findOfHeld(db: Kysely<Database>, id: string) {
  return db
    .selectFrom('outbox')
    .leftJoin('maybe_junk', 'maybe_junk.id', 'outbox.maybe_junk_id')
    .select(['outbox.id', 'outbox.kind', 'outbox.made_at', 'outbox.sent_at', 'outbox.last_fault'])
    .select(['maybe_junk.number', 'maybe_junk.nonce', 'maybe_junk.sending', 'maybe_junk.junk_at'])
    .where('outbox.id', '=', id)
    .where('outbox.kind', 'in', ['was-it-you', 'held-staff'] satisfies HeldMessage[])
    .executeTakeFirst()
}

export type OfHeld = NonNullable<Awaited<ReturnType<typeof findOfHeld>>>

function unsent(id: string, kind: HeldMessage, at: Temporal.Instant) {
  const now = at.toString()
  return { id, kind, quote_request_id: null, made_at: now, tried_from: now, sent_at: null, last_fault: null }
}
