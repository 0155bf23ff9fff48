import { type Kysely, sql } from 'kysely'

/** What sells goes only to whoever agreed to that way; who wants to be left in peace gets what concerns the booked job alone. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`alter table customer add column quiet_since timestamptz`.execute(db)
  await sql`alter table business add column postal_address text not null default ''`.execute(db)
  await sql`
    create table consent (
      id bigint generated always as identity primary key,
      customer_id bigint not null references customer,
      way text not null check (way in ('mail', 'text')),
      given boolean not null,
      at timestamptz not null,
      by_kind text not null check (by_kind in ('homeowner', 'staff')),
      account_id bigint references account,
      words text not null
    )`.execute(db)
  await sql`create index consent_customer on consent (customer_id, way, id)`.execute(db)
  await sql`
    create table offer (
      id bigint generated always as identity primary key,
      words_en text not null,
      words_es text not null,
      made_at timestamptz not null,
      made_by bigint not null references account,
      sent_at timestamptz
    )`.execute(db)
  await sql`
    create table offer_recipient (
      offer_id bigint not null references offer,
      customer_id bigint not null references customer,
      way text not null check (way in ('mail', 'text')),
      quote_request_id bigint not null references quote_request,
      primary key (offer_id, customer_id)
    )`.execute(db)
  await sql`alter table outbox add column offer_id bigint references offer`.execute(db)
}
