import { randomUUID } from 'node:crypto'
import { type Kysely, sql, type Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Jobs } from '../deps.ts'

/** What one of the staff is mailed about signing in. */
export type AccountMessage = 'password-link' | 'sign-in-link'

/** Puts a mail to one of the staff into the outbox, and its sending into the job queue. */
export async function putForAccount(
  trx: Transaction<Database>,
  jobs: Jobs,
  kind: AccountMessage,
  accountId: number,
  at: Temporal.Instant,
): Promise<void> {
  const id = randomUUID()
  await trx
    .insertInto('outbox')
    .values({
      id,
      kind,
      recipient: 'account',
      account_id: accountId,
      quote_request_id: null,
      made_at: at.toString(),
      tried_from: at.toString(),
      sent_at: null,
      last_fault: null,
    })
    .execute()
  await jobs.sendMail(trx, id)
}

/** How many mails of a kind were written to an account since then. */
export async function countForAccount(
  db: Kysely<Database>,
  kind: AccountMessage,
  accountId: number,
  since: Temporal.Instant,
): Promise<number> {
  const { count } = await db
    .selectFrom('outbox')
    .select(sql<number>`count(*)`.as('count'))
    .where('account_id', '=', accountId)
    .where('kind', '=', kind)
    .where('made_at', '>', since.toString())
    .executeTakeFirstOrThrow()
  return Number(count)
}

/** Whether a message of the outbox is one to the staff about signing in. */
export async function isForAccount(db: Kysely<Database>, id: string): Promise<boolean> {
  const row = await db.selectFrom('outbox').select('recipient').where('id', '=', id).executeTakeFirst()
  return row?.recipient === 'account'
}

/** A mail to one of the staff, as long as their account stands. */
export async function findForAccount(db: Kysely<Database>, id: string) {
  return db
    .selectFrom('outbox')
    .innerJoin('account', 'account.id', 'outbox.account_id')
    .select(['outbox.kind', 'outbox.made_at', 'outbox.sent_at', 'outbox.last_fault'])
    .select(['account.id as account_id', 'account.name', 'account.email', 'account.language'])
    .where('outbox.id', '=', id)
    .where('account.ended_at', 'is', null)
    .executeTakeFirst()
}

export type ForAccount = NonNullable<Awaited<ReturnType<typeof findForAccount>>>
