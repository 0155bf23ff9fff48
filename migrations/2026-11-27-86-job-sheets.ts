import { type Kysely, sql } from 'kysely'

/**
 * What a job sheet needs besides: who must be home and where the pile goes, of a place; how it is reckoned; and of jobs that
 * dig the utility ticket, in versions, with what each utility answered, and who decided to go on.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`alter table place add column home text not null default '', add column pile text not null default ''`.execute(
    db,
  )
  await sql`
    create table job_sheet_settings (
      "only" boolean primary key default true check ("only"),
      barrow numeric(8,3) not null check (barrow > 0),
      dig_wait_days integer check (dig_wait_days between 0 and 60),
      dig_valid_days integer check (dig_valid_days between 1 and 400),
      dig_source text not null,
      saved_at timestamptz not null,
      saved_by bigint not null references account
    )`.execute(db)
  await sql`
    create table dig_ticket (
      id bigint generated always as identity primary key,
      quote_request_id bigint not null references quote_request,
      version integer not null check (version > 0),
      number text not null,
      requested_on date,
      valid_from date,
      valid_until date,
      answers jsonb not null,
      made_at timestamptz not null,
      made_by bigint not null references account,
      constraint dig_ticket_in_turn unique (quote_request_id, version),
      constraint dig_ticket_dates check (valid_from <= valid_until and requested_on <= valid_from),
      constraint dig_ticket_whole check ((number = '') = (requested_on is null) and (number = '') = (valid_from is null)
        and (number = '') = (valid_until is null))
    )`.execute(db)
  await sql`
    create table dig_decision (
      id bigint generated always as identity primary key,
      quote_request_id bigint not null references quote_request,
      ticket_version integer not null check (ticket_version >= 0),
      name text not null check (name <> ''),
      made_at timestamptz not null,
      made_by bigint not null references account,
      constraint dig_decision_once unique (quote_request_id, ticket_version, name)
    )`.execute(db)
  for (const table of ['dig_ticket', 'dig_decision'])
    await sql`
      create trigger keep_as_made before update or delete on ${sql.table(table)}
      for each row execute function refuse_change()`.execute(db)
}
