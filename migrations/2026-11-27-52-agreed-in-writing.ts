import { type Kysely, sql } from 'kysely'

/**
 * What was accepted is kept as it was shown, with its SHA-256, which the database checks; who of the staff handed their
 * phone over for it; and that a change to accepted work was declined.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table accepted_text (
      quote_id bigint primary key references acceptance,
      text text not null check (text <> ''),
      language text not null check (language in ('en', 'es')),
      digest text not null,
      constraint accepted_text_digest check (digest = encode(sha256(convert_to(text, 'UTF8')), 'hex'))
    )`.execute(db)
  await sql`
    create trigger keep_as_made before update or delete on accepted_text
    for each row execute function refuse_change()`.execute(db)
  await sql`alter table acceptance add column taken_by bigint references account`.execute(db)
  await sql`
    create table change_declined (
      quote_id bigint primary key references quote,
      declined_at timestamptz not null
    )`.execute(db)
}
