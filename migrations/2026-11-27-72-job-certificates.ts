import { type Kysely, sql } from 'kysely'

/** A certificate of exemption may be for one job. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table job_certificate (
      quote_request_id bigint primary key references quote_request,
      number text not null check (number <> ''),
      until date,
      file_id bigint references kept_file,
      saved_at timestamptz not null,
      saved_by bigint not null references account
    )`.execute(db)
}
