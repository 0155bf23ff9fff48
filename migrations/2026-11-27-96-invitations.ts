import { type Kysely, sql } from 'kysely'

/** Who is asked to help, by a link that is made from the key and a nonce; it goes when it is used or taken back. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table invitation (
      id bigint generated always as identity primary key,
      name text not null,
      email text not null,
      language text not null check (language in ('en', 'es')),
      token_hash text not null unique,
      nonce text not null,
      made_at timestamptz not null,
      ends_at timestamptz not null,
      made_by bigint not null references account
    )`.execute(db)
  await sql`
    alter table outbox
      add column invitation_id bigint references invitation on delete cascade,
      drop constraint outbox_recipient_check,
      add constraint outbox_recipient_check check (recipient in ('homeowner', 'owner', 'account', 'invited')),
      add constraint outbox_invitation_check check ((recipient = 'invited') = (invitation_id is not null))`.execute(
    db,
  )
  await sql`
    create index outbox_to_invited on outbox (invitation_id) where invitation_id is not null`.execute(db)
}
