import { type Kysely, sql } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { severalLines } from '../lib/typed-text.ts'
import { setQuiet, withdrawConsent } from '../places/consent.ts'
import { addNote } from '../requests/changed-by-homeowner.ts'
import { recordHistory } from '../requests/history.ts'
import { lockQuoteRequest } from '../requests/stage.ts'
import { asksToStop } from './asks-to-stop.ts'
import { digitsOf } from './text-gateway.ts'

const BY_HOMEOWNER = { kind: 'homeowner' } as const
const KEPT = { hours: 24 * 7 }
const LONGEST = 4000
/** A number is the same with or without its country's code; fewer digits than these tell nobody apart. */
const DIGITS = { compared: 10, least: 7 }
const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i

/** An answer that somebody texted; `inReplyTo` is the id of the message that it answers, where the gateway knows. */
export interface Reply {
  from: string
  text: string
  inReplyTo?: string
}

/** An answer out of what a gateway posted; null of anything else. */
export function readReply(body: string): Reply | null {
  let posted: unknown
  try {
    posted = JSON.parse(body)
  } catch {
    return null
  }
  const { from, text, inReplyTo } = (posted ?? {}) as Record<keyof Reply, unknown>
  if (typeof from !== 'string' || typeof text !== 'string' || from.length > 40 || text.length > LONGEST)
    return null
  const words = severalLines(text)
  if (words === '' || digitsOf(from).length < DIGITS.least) return null
  return { from, text: words, inReplyTo: typeof inReplyTo === 'string' ? inReplyTo : undefined }
}

/**
 * Takes an answer in as a note of the homeowner's on the request that it belongs to: of the message that it answers, else
 * the newest of that phone, one that is under way before one that is over. The same answer brought again changes
 * nothing. Gives whether there is such a request.
 */
export async function takeReply(deps: Deps, id: string, reply: Reply): Promise<boolean> {
  const before = await deps.db.selectFrom('text_reply').select('id').where('id', '=', id).executeTakeFirst()
  if (before) return true
  const quoteRequestId = await findAnswered(deps.db, reply)
  if (quoteRequestId === undefined) return false
  await addNote(deps, quoteRequestId, reply.text)
  if (asksToStop(reply.text)) await stopTexts(deps, quoteRequestId, reply.text)
  await deps.db
    .insertInto('text_reply')
    .values({ id, received_at: deps.now().toString() })
    .onConflict(conflict => conflict.doNothing())
    .execute()
  return true
}

/** Who wants no more texts gets no offers that way, and what concerns a booked job alone. */
async function stopTexts(deps: Deps, quoteRequestId: number, words: string): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const at = deps.now()
    await lockQuoteRequest(trx, quoteRequestId)
    const { customer_id } = await trx
      .selectFrom('quote_request')
      .select('customer_id')
      .where('id', '=', quoteRequestId)
      .executeTakeFirstOrThrow()
    await withdrawConsent(trx, customer_id, 'text', { at, doer: BY_HOMEOWNER, words })
    if (await setQuiet(trx, customer_id, at))
      await recordHistory(trx, quoteRequestId, BY_HOMEOWNER, 'wants quiet', at)
  })
}

async function findAnswered(db: Kysely<Database>, { from, inReplyTo }: Reply): Promise<number | undefined> {
  const digits = digitsOf(from).slice(-DIGITS.compared)
  const theirs = sql<string>`right(regexp_replace(customer.phone, '\\D', '', 'g'), ${DIGITS.compared}::integer)`
  const answered = inReplyTo && UUID.test(inReplyTo) ? inReplyTo : null
  const row = await db
    .selectFrom('quote_request')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .select('quote_request.id')
    .where(theirs, '=', digits)
    .orderBy(
      sql`exists (select from outbox where outbox.quote_request_id = quote_request.id and outbox.id = ${answered}::uuid)`,
      'desc',
    )
    .orderBy(eb => eb('stage', 'not in', ['paid', 'called off', 'not taken', "can't do", 'lapsed']), 'desc')
    .orderBy('quote_request.id', 'desc')
    .executeTakeFirst()
  return row?.id
}

/** Forgets the answers that no gateway brings again. */
export async function sweepReplies(db: Kysely<Database>, at: Temporal.Instant): Promise<void> {
  await db.deleteFrom('text_reply').where('received_at', '<', at.subtract(KEPT).toString()).execute()
}
