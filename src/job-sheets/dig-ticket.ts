import type { Kysely } from 'kysely'
import { json } from '../db/json.ts'
import type { DigAnswer } from '../db/schema/jobs.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import type { Job } from '../estimate/job/bed.ts'
import { extrasOf } from '../estimate/job/extras.ts'
import { finishesOf } from '../estimate/job/quantities.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { Conflict } from '../http/errors.ts'
import { recordHistory } from '../requests/history.ts'
import { lockQuoteRequest } from '../requests/stage.ts'

/** Whether a job digs: an extra or a material of it goes with the caution about digging, as the owner set it. */
export function digs(job: Job, table: RateTable): boolean {
  const all = [...extrasOf(job, table), ...finishesOf(job, table)]
  return all.some(({ cautions }) => cautions.includes('digging'))
}

/** A ticket as it was entered; days 'YYYY-MM-DD'. */
export interface Ticket {
  number: string
  requested: string
  from: string
  until: string
  answers: DigAnswer[]
}

/** The ticket of a job with its version, 0 while none was ever entered; `ticket` is null where there is none. */
export async function findTicket(
  db: Kysely<Database>,
  quoteRequestId: number,
): Promise<{ version: number; ticket: Ticket | null }> {
  const row = await db
    .selectFrom('dig_ticket')
    .selectAll()
    .where('quote_request_id', '=', quoteRequestId)
    .orderBy('version', 'desc')
    .limit(1)
    .executeTakeFirst()
  if (!row || row.number === '') return { version: row?.version ?? 0, ticket: null }
  const { version, number, requested_on, valid_from, valid_until, answers } = row
  return {
    version,
    ticket: { number, requested: requested_on!, from: valid_from!, until: valid_until!, answers },
  }
}

/** The tickets of several jobs, by the ids of their requests. */
export async function findTickets(
  db: Kysely<Database>,
  ids: readonly number[],
): Promise<Map<number, Ticket>> {
  const found = new Map<number, Ticket>()
  if (ids.length === 0) return found
  const rows = await db
    .selectFrom('dig_ticket')
    .select(['quote_request_id', 'number', 'requested_on', 'valid_from', 'valid_until', 'answers'])
    .distinctOn('quote_request_id')
    .where('quote_request_id', 'in', ids)
    .orderBy('quote_request_id')
    .orderBy('version', 'desc')
    .execute()
  for (const { quote_request_id, number, requested_on, valid_from, valid_until, answers } of rows)
    if (number !== '')
      found.set(quote_request_id, {
        ...{ number, requested: requested_on!, from: valid_from!, until: valid_until!, answers },
      })
  return found
}

/** What is said beside a day that a ticket isn't good on: ' (outside the dates of utility ticket A12)'; '' where it is, or there is none. */
export function outsideTicket(ticket: Ticket | null | undefined, day: string): string {
  if (!ticket || (day >= ticket.from && day <= ticket.until)) return ''
  return ` (outside the dates of utility ticket ${ticket.number})`
}

/**
 * Enters the ticket of a job, anew or for the first time; null says that there is none. `version` is the one that the page
 * showed. The same again changes nothing.
 * @throws {Conflict} when another was entered since
 */
export async function enterTicket(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  version: number,
  ticket: Ticket | null,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const at = deps.now()
    await lockQuoteRequest(trx, quoteRequestId)
    const stands = await findTicket(trx, quoteRequestId)
    if (isSame(stands.ticket, ticket)) return
    if (stands.version !== version) throw new Conflict('sheet.changed')
    await trx
      .insertInto('dig_ticket')
      .values({
        ...{ quote_request_id: quoteRequestId, version: version + 1, number: ticket?.number ?? '' },
        requested_on: ticket?.requested ?? null,
        valid_from: ticket?.from ?? null,
        valid_until: ticket?.until ?? null,
        answers: json(ticket?.answers ?? []),
        ...{ made_at: at.toString(), made_by: accountId },
      })
      .execute()
    const detail = { number: ticket?.number ?? '', from: ticket?.from ?? '', until: ticket?.until ?? '' }
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, 'dig ticket', at, detail)
  })
}

// The database puts the parts of an answer in an order of its own.
function isSame(one: Ticket | null, other: Ticket | null): boolean {
  const plain = (ticket: Ticket | null) =>
    ticket && {
      ...[ticket.number, ticket.requested, ticket.from, ticket.until],
      answers: ticket.answers.map(({ utility, answer }) => [utility, answer]),
    }
  return JSON.stringify(plain(one)) === JSON.stringify(plain(other))
}

/** Keeps who decided to go on with a job that digs, by the ticket that stands; the same name again changes nothing. */
export async function decideToDig(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  name: string,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const at = deps.now()
    await lockQuoteRequest(trx, quoteRequestId)
    const { version, ticket } = await findTicket(trx, quoteRequestId)
    const kept = await trx
      .insertInto('dig_decision')
      .values({
        ...{ quote_request_id: quoteRequestId, ticket_version: version, name },
        ...{ made_at: at.toString(), made_by: accountId },
      })
      .onConflict(conflict => conflict.doNothing())
      .returning('id')
      .executeTakeFirst()
    if (!kept) return
    const detail = { name, ticket: ticket?.number ?? '' }
    await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, 'decided to dig', at, detail)
  })
}

/** Who decided to go on, the first first; `ticket_version` tells by which ticket. */
export async function findDigDecisions(db: Kysely<Database>, quoteRequestId: number) {
  return db
    .selectFrom('dig_decision')
    .innerJoin('account', 'account.id', 'dig_decision.made_by')
    .select(['dig_decision.name', 'ticket_version', 'dig_decision.made_at', 'account.name as made_by_name'])
    .where('quote_request_id', '=', quoteRequestId)
    .orderBy('dig_decision.id')
    .execute()
}
