import { type Kysely, sql } from 'kysely'

/**
 * Suppliers with what they sell, and what is ordered from them for a work day: one order for each supplier, day and pack at a
 * time, with the jobs it is for and every step of it.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table supplier (
      id bigint generated always as identity primary key,
      name text not null check (name <> ''),
      phone text not null,
      cutoff text not null,
      hours text not null,
      lead_days integer not null check (lead_days between 0 and 30),
      keeps boolean not null,
      sells text[] not null,
      saved_at timestamptz not null,
      saved_by bigint not null references account,
      removed_at timestamptz
    )`.execute(db)
  await sql`create unique index supplier_once on supplier (lower(name)) where removed_at is null`.execute(db)
  await sql`
    create table supply_order (
      id bigint generated always as identity primary key,
      supplier_id bigint not null references supplier,
      day date not null,
      of text not null check (of in ('finish', 'extra')),
      slug text not null check (slug <> ''),
      pack text not null,
      delivered boolean not null,
      units numeric(10,3) not null check (units > 0),
      state text not null check (state in ('ordered', 'confirmed', 'delivered', 'canceled')),
      dropped text not null default ''
    )`.execute(db)
  await sql`
    create unique index supply_order_once on supply_order (supplier_id, day, of, slug, pack)
      where state <> 'canceled'`.execute(db)
  await sql`
    create table supply_order_job (
      supply_order_id bigint not null references supply_order,
      quote_request_id bigint not null references quote_request,
      primary key (supply_order_id, quote_request_id)
    )`.execute(db)
  await sql`create index supply_order_of_job on supply_order_job (quote_request_id)`.execute(db)
  await sql`
    create table supply_order_step (
      id bigint generated always as identity primary key,
      supply_order_id bigint not null references supply_order,
      state text not null,
      units numeric(10,3) not null,
      note text not null,
      made_at timestamptz not null,
      made_by bigint not null references account
    )`.execute(db)
  await sql`
    create trigger keep_as_made before update or delete on supply_order_step
    for each row execute function refuse_change()`.execute(db)
}
