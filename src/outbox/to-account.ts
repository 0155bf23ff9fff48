import { randomUUID } from 'node:crypto'
import { type Insertable, type Kysely, sql, type Transaction } from 'kysely'
import type { OutboxTable } from '../db/schema/letters.ts'
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
  await put(trx, jobs, at, { kind, recipient: 'account', account_id: accountId })
}

/** The same of the mail to somebody who is asked to help. */
export async function putForInvited(
  trx: Transaction<Database>,
  jobs: Jobs,
  invitationId: number,
  at: Temporal.Instant,
): Promise<void> {
  await put(trx, jobs, at, { kind: 'invitation', recipient: 'invited', invitation_id: invitationId })
}

async function put(
  trx: Transaction<Database>,
  jobs: Jobs,
  at: Temporal.Instant,
  to: Pick<Insertable<OutboxTable>, 'kind' | 'recipient' | 'account_id' | 'invitation_id'>,
): Promise<void> {
  const [id, now] = [randomUUID(), at.toString()]
  const unsent = { quote_request_id: null, made_at: now, tried_from: now, sent_at: null, last_fault: null }
  await trx
    .insertInto('outbox')
    .values({ id, ...unsent, ...to })
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

/** Whether a message of the outbox is about signing in, and to whom it then goes. */
export async function findForStaff(db: Kysely<Database>, id: string) {
  const row = await db
    .selectFrom('outbox')
    .select(['id', 'kind', 'recipient', 'account_id', 'made_at', 'sent_at', 'last_fault'])
    .where('id', '=', id)
    .executeTakeFirst()
  return row && (row.recipient === 'account' || row.recipient === 'invited') ? row : undefined
}

export type ForStaff = NonNullable<Awaited<ReturnType<typeof findForStaff>>>
