import { type Kysely, sql } from 'kysely'

/**
 * What was sent under a key is told apart by its content too. A mail address is unconfirmed until a button behind a
 * link that was mailed to it is pressed; the addresses of before are unconfirmed, as nothing in the tables proves one:
 * the booking link stands on the own page too, which whoever sent the request is shown. Mails are counted by the hour.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    alter table quote_request
      add column content_hash text,
      drop constraint quote_request_submission_key_key,
      add constraint quote_request_sent_once unique (submission_key, content_hash)`.execute(db)
  await sql`
    alter table customer
      add column email_confirmed_at timestamptz,
      add constraint customer_confirmed_has_email check (email <> '' or email_confirmed_at is null)`.execute(
    db,
  )
  await sql`
    alter table link
      drop constraint link_purpose_check,
      add constraint link_purpose_check check (purpose in ('own page', 'booking', 'email address'))`.execute(
    db,
  )
  await sql`
    create table mail_hour (
      counted text not null,
      hour timestamptz not null,
      mails integer not null check (mails >= 0),
      primary key (counted, hour)
    )`.execute(db)
}
