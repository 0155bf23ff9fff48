import { type Kysely, sql } from 'kysely'

/** Files that firms ask for, kept once under a name, and the certificates that they give. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table kept_file (
      id bigint generated always as identity primary key,
      kind text not null check (kind in ('application/pdf', 'image/jpeg')),
      bytes bytea not null,
      made_at timestamptz not null,
      made_by bigint not null references account
    )`.execute(db)
  await sql`
    create table paper (
      id bigint generated always as identity primary key,
      name text not null,
      file_id bigint not null references kept_file,
      removed_at timestamptz
    )`.execute(db)
  await sql`create unique index paper_name on paper (lower(name)) where removed_at is null`.execute(db)
  await sql`
    alter table firm add column paper_ids integer[] not null default '{}',
      add column certificate_file_id bigint references kept_file`.execute(db)
}
