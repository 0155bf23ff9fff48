import { type Kysely, sql } from 'kysely'

/** A customer may be a firm or an association; and what number a request's order has with them. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table firm (
      customer_id bigint primary key references customer,
      needs_order boolean not null,
      days_to_pay integer check (days_to_pay between 0 and 365),
      bill_name text not null,
      bill_email text not null,
      bill_address text not null,
      exempt_number text not null,
      exempt_until date,
      rules text not null,
      saved_at timestamptz not null,
      saved_by bigint not null references account,
      check (exempt_until is null or exempt_number <> '')
    )`.execute(db)
  await sql`
    create table purchase_order (
      quote_request_id bigint primary key references quote_request,
      number text not null check (number <> ''),
      told_at timestamptz not null
    )`.execute(db)
}
