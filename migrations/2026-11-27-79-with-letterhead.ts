import { type Kysely, sql } from 'kysely'

/** What stands at the head of a paper beside name and address: a line of the license, and the logo. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    alter table business
      add column license_line text not null default '',
      add column logo_file_id bigint references kept_file`.execute(db)
}
