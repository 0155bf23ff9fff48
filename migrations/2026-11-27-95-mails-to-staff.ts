import { type Kysely, sql } from 'kysely'

/**
 * Mails to one of the staff about signing in, in their language; links in them are made from the key and a nonce when they are sent, so
 * that none lies in the store. The one link of an account that signs in.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    alter table account add column language text not null default 'en' check (language in ('en', 'es'))`.execute(
    db,
  )
  await sql`
    alter table outbox
      add column account_id bigint references account,
      drop constraint outbox_recipient_check,
      add constraint outbox_recipient_check check (recipient in ('homeowner', 'owner', 'account')),
      add constraint outbox_account_check check ((recipient = 'account') = (account_id is not null))`.execute(
    db,
  )
  await sql`
    create index outbox_to_account on outbox (account_id, kind, made_at) where account_id is not null`.execute(
    db,
  )
  await sql`alter table password_reset add column nonce text`.execute(db)
  await sql`
    create table sign_in_link (
      account_id bigint primary key references account on delete cascade,
      token_hash text not null unique,
      nonce text not null,
      made_at timestamptz not null,
      ends_at timestamptz not null
    )`.execute(db)
}
