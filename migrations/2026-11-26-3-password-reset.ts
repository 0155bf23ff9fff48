import { type Kysely, sql } from 'kysely'

/** The one link of an account at which a new password can be chosen; it goes when it is used. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table password_reset (
      account_id bigint primary key references account on delete cascade,
      token_hash text not null unique,
      made_at timestamptz not null,
      ends_at timestamptz not null
    )`.execute(db)
}
