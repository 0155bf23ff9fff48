import { type Kysely, sql } from 'kysely'

/** What proves somebody besides the password: an app that makes codes, its secret sealed by the key, and codes to come in without it, hashed. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table authenticator (
      account_id bigint primary key references account,
      sealed_secret text not null,
      made_at timestamptz not null,
      on_at timestamptz,
      last_step bigint not null default 0
    )`.execute(db)
  await sql`
    create table recovery_code (
      account_id bigint not null references authenticator on delete cascade,
      code_hash text not null,
      primary key (account_id, code_hash)
    )`.execute(db)
}
