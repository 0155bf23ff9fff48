import { type Kysely, sql } from 'kysely'

/** How long a visit takes and at which hours of the day there are any; and times that a homeowner may pick from. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    alter table business
      add column visit_minutes integer not null default 60 check (visit_minutes between 10 and 480),
      add column visit_from_hour integer not null default 8 check (visit_from_hour between 0 and 23),
      add column visit_to_hour integer not null default 18 check (visit_to_hour between 1 and 24),
      add constraint visit_hours check (visit_from_hour * 60 + visit_minutes <= visit_to_hour * 60)`.execute(
    db,
  )
  await sql`
    alter table visit add column minutes integer not null default 60 check (minutes between 10 and 480)`.execute(
    db,
  )
  await sql`
    create table visit_offer (
      id bigint generated always as identity primary key,
      quote_request_id bigint not null references quote_request,
      starts_at timestamptz not null,
      made_at timestamptz not null,
      ended_at timestamptz
    )`.execute(db)
  await sql`
    create unique index visit_offer_standing on visit_offer (quote_request_id, starts_at)
    where ended_at is null`.execute(db)
}
