import { type Kysely, sql, type Transaction } from 'kysely'
import { json } from '../db/json.ts'
import type { Database } from '../db/schema.ts'
import { NotFound } from '../http/errors.ts'
import type { PreparedBill } from './prepare.ts'

/** All bills and credit memos of a request in turn, each with the number of the credit memo that undid it. */
export async function findBills(db: Kysely<Database>, quoteRequestId: number) {
  return bills(db).where('bill.quote_request_id', '=', quoteRequestId).orderBy('bill.id').execute()
}

/** The bill that stands of a request; undefined while there is none. */
export async function findStandingBill(db: Kysely<Database>, quoteRequestId: number) {
  return bills(db)
    .where('bill.quote_request_id', '=', quoteRequestId)
    .where('bill.kind', '=', 'bill')
    .where('credit.id', 'is', null)
    .executeTakeFirst()
}

/**
 * A bill or a credit memo by its number.
 * @throws {NotFound} when there is none
 */
export async function requireBill(db: Kysely<Database>, number: string) {
  const row = await bills(db).where('bill.number', '=', number).executeTakeFirst()
  if (!row) throw new NotFound()
  return row
}

function bills(db: Kysely<Database>) {
  return db
    .selectFrom('bill')
    .innerJoin('quote_request', 'quote_request.id', 'bill.quote_request_id')
    .innerJoin('account', 'account.id', 'bill.made_by')
    .leftJoin('bill as credit', 'credit.undoes', 'bill.id')
    .leftJoin('bill as undone', 'undone.id', 'bill.undoes')
    .selectAll('bill')
    .select(['quote_request.number as request_number', 'account.name as made_by_name'])
    .select(sql<boolean>`quote_request.erased_at is not null`.as('is_erased'))
    .select(['credit.number as credited_by', 'undone.number as credits'])
}

export type BillRow = Awaited<ReturnType<typeof requireBill>>

/** The lines of a bill in order, and what of them falls onto each stop. */
export async function findBillLines(db: Kysely<Database>, billId: number) {
  const lines = await db
    .selectFrom('bill_line')
    .select(['position', 'kind', 'slug', 'words', 'quantity', 'amount'])
    .where('bill_id', '=', billId)
    .orderBy('position')
    .execute()
  const shares = await db
    .selectFrom('bill_line_share')
    .select(['position', 'stop', 'amount'])
    .where('bill_id', '=', billId)
    .orderBy('stop')
    .orderBy('position')
    .execute()
  return { lines, shares }
}

/** Gives the bill's id and the number that it took. */
export async function insertBill(
  trx: Transaction<Database>,
  quoteRequestId: number,
  bill: PreparedBill,
  made: { at: Temporal.Instant; by: number },
): Promise<{ id: number; number: string }> {
  const { quote, firm, done, tax, taxNote } = bill
  const row = await trx
    .insertInto('bill')
    .values({
      quote_request_id: quoteRequestId,
      kind: 'bill',
      ...{ day: bill.day, due: bill.due, place: bill.place, area: bill.area, language: bill.language },
      ...{ quote_id: quote.id, rate_table_id: bill.rateTableId, currency: quote.currency },
      terms: json(bill.terms),
      tax: tax && json(tax),
      tax_names: json(bill.taxNames),
      tax_note: taxNote && json(taxNote),
      is_firm: firm !== undefined,
      days_to_pay: firm?.days_to_pay ?? null,
      order_number: bill.orderNumber,
      bill_to: json(bill.billTo),
      ...{ first_day: done.firstDay, last_day: done.lastDay },
      part: done.shares.length > 0 ? json(done.shares) : null,
      total: bill.total,
      reason: '',
      ...{ made_at: made.at.toString(), made_by: made.by },
    })
    .returning(['id', 'number'])
    .executeTakeFirstOrThrow()
  if (bill.lines.length > 0)
    await trx
      .insertInto('bill_line')
      .values(
        bill.lines.map(line => ({
          ...line,
          bill_id: row.id,
          words: json(line.words),
          quantity: line.quantity && json(line.quantity),
        })),
      )
      .execute()
  if (bill.shares.length > 0)
    await trx
      .insertInto('bill_line_share')
      .values(bill.shares.map(share => ({ ...share, bill_id: row.id })))
      .execute()
  return row
}

/** Undoes a bill line by line with a credit memo; gives its number. */
export async function insertCredit(
  trx: Transaction<Database>,
  bill: BillRow,
  { reason, day }: { reason: string; day: string },
  made: { at: Temporal.Instant; by: number },
): Promise<{ id: number; number: string }> {
  const row = await trx
    .insertInto('bill')
    .columns([...CREDITED, 'kind', 'day', 'due', 'total', 'undoes', 'reason', 'made_at', 'made_by'])
    .expression(
      trx
        .selectFrom('bill')
        .select(CREDITED)
        .select(eb => [
          eb.val('credit memo').as('kind'),
          eb.cast<string>(eb.val(day), 'date').as('day'),
          eb.cast<string>(eb.val(day), 'date').as('due'),
          eb.neg('total').as('total'),
          'id as undoes',
          eb.val(reason).as('reason'),
          eb.cast<string>(eb.val(made.at.toString()), 'timestamptz').as('made_at'),
          eb.cast<number>(eb.val(made.by), 'bigint').as('made_by'),
        ])
        .where('id', '=', bill.id),
    )
    .returning(['id', 'number'])
    .executeTakeFirstOrThrow()
  await insertOpposites(trx, { from: bill.id, to: row.id })
  return row
}

const CREDITED = [
  ...(['quote_request_id', 'quote_id', 'rate_table_id', 'terms', 'tax', 'tax_names', 'tax_note'] as const),
  ...([
    'is_firm',
    'days_to_pay',
    'order_number',
    'bill_to',
    'place',
    'area',
    'first_day',
    'last_day',
  ] as const),
  ...(['part', 'language', 'currency'] as const),
] as const

async function insertOpposites(
  trx: Transaction<Database>,
  { from, to }: { from: number; to: number },
): Promise<void> {
  const LINE = ['position', 'kind', 'slug', 'words', 'quantity'] as const
  await trx
    .insertInto('bill_line')
    .columns(['bill_id', ...LINE, 'amount'])
    .expression(
      trx
        .selectFrom('bill_line')
        .select(eb => eb.cast<number>(eb.val(to), 'bigint').as('bill_id'))
        .select(LINE)
        .select(eb => eb.neg('amount').as('amount'))
        .where('bill_id', '=', from),
    )
    .execute()
  await trx
    .insertInto('bill_line_share')
    .columns(['bill_id', 'position', 'stop', 'amount'])
    .expression(
      trx
        .selectFrom('bill_line_share')
        .select(eb => eb.cast<number>(eb.val(to), 'bigint').as('bill_id'))
        .select(['position', 'stop'])
        .select(eb => eb.neg('amount').as('amount'))
        .where('bill_id', '=', from),
    )
    .execute()
}
