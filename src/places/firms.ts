import { type Kysely, sql, type Transaction } from 'kysely'
import type { FirmTable } from '../db/schema/people.ts'
import type { Database } from '../db/schema.ts'

/** What is agreed with a firm or an association. */
export type Firm = Pick<
  FirmTable,
  | 'needs_order'
  | 'days_to_pay'
  | 'bill_name'
  | 'bill_email'
  | 'bill_address'
  | 'exempt_number'
  | 'exempt_until'
  | 'rules'
> & { paper_ids: number[] }

/** What is agreed with a customer, by any row of the group, as it was saved last. */
export async function findFirm(db: Kysely<Database>, headId: number): Promise<Firm | undefined> {
  return firms(db).where('customer.head_id', '=', headId).executeTakeFirst()
}

/** What is agreed with the customer of a request. */
export async function findFirmOfRequest(
  db: Kysely<Database>,
  quoteRequestId: number,
): Promise<Firm | undefined> {
  return firms(db)
    .where('customer.head_id', '=', eb =>
      eb
        .selectFrom('quote_request')
        .innerJoin('customer as one', 'one.id', 'quote_request.customer_id')
        .select('one.head_id')
        .where('quote_request.id', '=', quoteRequestId),
    )
    .executeTakeFirst()
}

function firms(db: Kysely<Database>) {
  return db
    .selectFrom('firm')
    .innerJoin('customer', 'customer.id', 'firm.customer_id')
    .select(['needs_order', 'days_to_pay', 'bill_name', 'bill_email', 'bill_address'])
    .select(['exempt_number', 'exempt_until', 'rules', 'paper_ids'])
    .orderBy('saved_at', 'desc')
    .limit(1)
}

/** Saves what is agreed with the customer who heads a group; saved again, the newest counts. */
export async function saveFirm(
  db: Kysely<Database>,
  headId: number,
  firm: Firm,
  saved: { at: Temporal.Instant; by: number },
): Promise<void> {
  const row = { ...firm, saved_at: saved.at.toString(), saved_by: saved.by }
  await db
    .insertInto('firm')
    .values({ customer_id: headId, ...row })
    .onConflict(conflict => conflict.column('customer_id').doUpdateSet(row))
    .execute()
}

/** Whether a certificate that somebody gave counts on a day, 'YYYY-MM-DD': its last day does. */
export function isExempt({ exempt_number, exempt_until }: Firm, today: string): boolean {
  return exempt_number !== '' && (exempt_until === null || exempt_until >= today)
}

/** The customer's number of the order that a request became, where it is known. */
export async function findOrderNumber(db: Kysely<Database>, quoteRequestId: number): Promise<string> {
  const row = await db
    .selectFrom('purchase_order')
    .select('number')
    .where('quote_request_id', '=', quoteRequestId)
    .executeTakeFirst()
  return row?.number ?? ''
}

/** Keeps the number of an order, or another one; none at all takes it away. Gives whether it was another one. */
export async function keepOrderNumber(
  trx: Transaction<Database>,
  quoteRequestId: number,
  number: string,
  at: Temporal.Instant,
): Promise<boolean> {
  if ((await findOrderNumber(trx, quoteRequestId)) === number) return false
  if (number === '')
    await trx.deleteFrom('purchase_order').where('quote_request_id', '=', quoteRequestId).execute()
  else
    await sql`
      insert into purchase_order (quote_request_id, number, told_at) values (${quoteRequestId}, ${number}, ${at.toString()})
      on conflict (quote_request_id) do update set number = excluded.number, told_at = excluded.told_at`.execute(
      trx,
    )
  return true
}

/** The certificate by which a firm's next price is without tax; '' where none counts. */
export function exemptBy(firm: Firm | undefined, today: string): string {
  return firm && isExempt(firm, today) ? firm.exempt_number : ''
}

/** Whether a certificate is the firm's own and has ended. */
export function isPast(firm: Firm | undefined, number: string, today: string): boolean {
  return firm !== undefined && number !== '' && number === firm.exempt_number && !isExempt(firm, today)
}

/** Keeps which file is a firm's certificate; nothing else need be agreed on yet. */
export async function keepCertificate(
  trx: Transaction<Database>,
  headId: number,
  fileId: number,
  saved: { at: Temporal.Instant; by: number },
): Promise<void> {
  const none = {
    ...{ needs_order: false, bill_name: '', bill_email: '', bill_address: '', exempt_number: '', rules: '' },
    ...{ days_to_pay: null, exempt_until: null },
  }
  const row = { certificate_file_id: fileId, saved_at: saved.at.toString(), saved_by: saved.by }
  const before = (await findFirm(trx, headId)) ?? none
  await trx
    .insertInto('firm')
    .values({ customer_id: headId, ...before, ...row })
    .onConflict(conflict => conflict.column('customer_id').doUpdateSet({ ...before, ...row }))
    .execute()
}

/** The file of a customer's certificate, the newest of the group. */
export async function findCertificate(db: Kysely<Database>, headId: number) {
  return db
    .selectFrom('firm')
    .innerJoin('customer', 'customer.id', 'firm.customer_id')
    .innerJoin('kept_file', 'kept_file.id', 'firm.certificate_file_id')
    .select(['kept_file.kind', 'kept_file.bytes'])
    .where('customer.head_id', '=', headId)
    .orderBy('kept_file.id', 'desc')
    .limit(1)
    .executeTakeFirst()
}
