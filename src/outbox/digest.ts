import type { Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { dayOf } from '../lib/dates.ts'
import { kindInWords } from './kind-words.ts'
import type { MessageKind } from './kinds.ts'
import type { About, Message } from './message.ts'
import { putInOutbox } from './outbox.ts'

/**
 * Gathers what waits for the day's summary into one message; one a day, whichever process is first. It hangs on the
 * first of its requests.
 */
export async function writeDigest(deps: Deps, timeZone: string): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const waiting = await trx
      .selectFrom('outbox')
      .select(['id', 'quote_request_id'])
      .where('for_digest', '=', true)
      .where('digest_id', 'is', null)
      .where('last_fault', 'is', null)
      .orderBy('made_at')
      .orderBy('id')
      .forUpdate()
      .execute()
    const first = waiting[0]?.quote_request_id
    if (!first) return
    const at = deps.now()
    const once = `digest ${dayOf(at, timeZone)}`
    if (await findOnce(trx, once)) return
    await putInOutbox(trx, deps.jobs, 'digest-staff', 'owner', first, at, { once })
    const made = await findOnce(trx, once)
    const ids = waiting.map(({ id }) => id)
    await trx.updateTable('outbox').set({ digest_id: made!.id }).where('id', 'in', ids).execute()
  })
}

async function findOnce(trx: Transaction<Database>, once: string) {
  return trx.selectFrom('outbox').select('id').where('once', '=', once).executeTakeFirst()
}

/** What happened since the last one, by request: as its own messages to the staff, it names nobody. */
export async function digest({ deps, row }: About): Promise<Message> {
  const news = await deps.db
    .selectFrom('outbox')
    .innerJoin('quote_request', 'quote_request.id', 'outbox.quote_request_id')
    .select(['quote_request.number', 'outbox.kind'])
    .where('digest_id', '=', row.id)
    .orderBy('quote_request.number')
    .orderBy('outbox.made_at')
    .execute()
  const byRequest = Map.groupBy(news, ({ number }) => number)
  const facts = [...byRequest].map(([number, about]) => ({
    term: number,
    value: [...new Set(about.map(({ kind }) => kindInWords(kind as MessageKind)))].join(', '),
  }))
  const subject = facts.length === 1 ? 'News about 1 request' : `News about ${facts.length} requests`
  return {
    subject,
    paragraphs: ['This is what came in since the last summary.'],
    facts,
    link: { words: 'Open the queue', address: `${deps.config.publicUrl}/queue` },
    brief: subject,
  }
}
