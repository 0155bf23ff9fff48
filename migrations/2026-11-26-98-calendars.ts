import { type Kysely, sql } from 'kysely'

/** The calendar that each of the staff may subscribe to, by a link that is made like others from the key and a nonce. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table calendar_feed (
      account_id bigint primary key references account,
      nonce text not null,
      token_hash text not null unique,
      made_at timestamptz not null
    )`.execute(db)
}
