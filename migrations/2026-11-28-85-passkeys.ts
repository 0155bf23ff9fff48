import { type Kysely, sql } from 'kysely'

/**
 * Passkeys, another way to prove oneself besides the password, and the challenges that they answered, each once. Recovery codes stand in for either way,
 * so they belong to the account from now on.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table passkey (
      id bigint generated always as identity primary key,
      account_id bigint not null references account,
      credential_id text not null unique,
      public_key text not null,
      counter bigint not null,
      transports text not null,
      name text not null,
      made_at timestamptz not null,
      used_at timestamptz
    )`.execute(db)
  await sql`create index passkey_account on passkey (account_id)`.execute(db)
  await sql`
    create table passkey_challenge (
      challenge_hash text primary key,
      ends_at timestamptz not null
    )`.execute(db)
  await sql`
    alter table recovery_code
      drop constraint recovery_code_account_id_fkey,
      add constraint recovery_code_account_id_fkey foreign key (account_id) references account`.execute(db)
}
