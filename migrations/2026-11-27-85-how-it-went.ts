import { type Kysely, sql } from 'kysely'

/**
 * What a job took, with the version of its closing that says so: packs used, what was left over, hours by person, dump
 * fees. Beside them, as they happen: which stops are done, photos, and what was damaged or is to be put right for free.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await figures(db)
  await beside(db)
  for (const table of ['job_used', 'job_left_over', 'job_hours', 'job_dump_fee', 'job_photo'])
    await sql`
      create trigger keep_as_made before update on ${sql.table(table)}
      for each row execute function refuse_change()`.execute(db)
}

async function figures(db: Kysely<any>) {
  await sql`
    create table job_used (
      closing_id bigint not null references job_closing,
      of text not null check (of in ('finish', 'extra')),
      slug text not null check (slug <> ''),
      pack text not null,
      units numeric(10,3) not null check (units >= 0),
      planned numeric(10,3) not null check (planned >= 0),
      primary key (closing_id, of, slug, pack)
    )`.execute(db)
  await sql`
    create table job_left_over (
      closing_id bigint not null references job_closing,
      of text not null check (of in ('finish', 'extra')),
      slug text not null check (slug <> ''),
      pack text not null,
      units numeric(10,3) not null check (units > 0),
      goes text not null check (goes in ('on hand', 'customer')),
      primary key (closing_id, of, slug, pack)
    )`.execute(db)
  await sql`
    create table job_hours (
      closing_id bigint not null references job_closing,
      nth integer not null check (nth > 0),
      account_id bigint references account,
      name text not null check (name <> ''),
      task text not null check (task in ('work', 'yard', 'driving')),
      minutes integer not null check (minutes > 0 and minutes <= 60000),
      primary key (closing_id, nth)
    )`.execute(db)
  await sql`
    create table job_dump_fee (
      closing_id bigint not null references job_closing,
      nth integer not null check (nth > 0),
      amount numeric(12,2) not null check (amount > 0),
      words text not null,
      typed_by bigint not null references account,
      primary key (closing_id, nth)
    )`.execute(db)
}

async function beside(db: Kysely<any>) {
  await sql`
    create table job_stop_done (
      quote_request_id bigint not null references quote_request,
      stop integer not null check (stop >= 0),
      done_at timestamptz not null,
      done_by bigint not null references account,
      primary key (quote_request_id, stop)
    )`.execute(db)
  await sql`
    create table job_photo (
      id bigint generated always as identity primary key,
      quote_request_id bigint not null references quote_request,
      words text not null,
      picture bytea not null,
      small bytea not null,
      small_width integer not null,
      small_height integer not null,
      digest text not null,
      made_at timestamptz not null,
      made_by bigint not null references account,
      constraint job_photo_once unique (quote_request_id, digest)
    )`.execute(db)
  await sql`
    create table job_trouble (
      id bigint generated always as identity primary key,
      key uuid not null unique,
      quote_request_id bigint not null references quote_request,
      kind text not null check (kind in ('damage', 'come back')),
      words text not null check (words <> ''),
      day date,
      photo_id bigint references job_photo on delete set null,
      made_at timestamptz not null,
      made_by bigint not null references account,
      done_at timestamptz,
      done_by bigint references account,
      check ((kind = 'come back') = (day is not null)),
      check ((done_at is null) = (done_by is null))
    )`.execute(db)
  await sql`create index job_trouble_of on job_trouble (quote_request_id)`.execute(db)
  await sql`create index job_trouble_day on job_trouble (day) where done_at is null`.execute(db)
}
