import { type Kysely, sql } from 'kysely'

/**
 * A message goes as mail or as a text, by itself or passed on by hand; `tried_from` is when it was last put on, and what
 * was given up says whether it failed or was dropped. The one gateway for texts, and the answers that it brought.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    alter table outbox
      add column way text not null default 'mail' check (way in ('mail', 'text')),
      add column passed_on_by bigint references account,
      add column tried_from timestamptz`.execute(db)
  await sql`update outbox set tried_from = made_at`.execute(db)
  await sql`alter table outbox alter column tried_from set not null`.execute(db)
  await sql`
    update outbox set last_fault = replace(last_fault, 'stopped: ', 'dropped: ')
    where last_fault in ('stopped: out of date', 'stopped: too many')`.execute(db)
  await sql`
    create table text_gateway (
      "only" boolean primary key default true check ("only"),
      address text not null,
      nonce text not null,
      set_at timestamptz not null
    )`.execute(db)
  await sql`
    create table text_reply (
      id text primary key,
      received_at timestamptz not null
    )`.execute(db)
}
