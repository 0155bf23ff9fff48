import { type Kysely, sql } from 'kysely'

/**
 * For how long what is known of people is kept, as the owner has it, and a log of who of the staff took somebody's data out
 * or erased it: only ever added to, and by numbers alone. An entry without an account is of the nightly work.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    alter table business add column keeping jsonb not null
    default '{"requestsMonths": 36, "messagesMonths": 24, "guessesDays": 30, "filesDays": 30}'`.execute(db)
  await sql`
    create table access_log (
      id bigint generated always as identity primary key,
      at timestamptz not null,
      account_id bigint references account,
      verb text not null check (verb in ('exported', 'erased', 'papers erased')),
      customer_id bigint,
      requests text[] not null
    )`.execute(db)
  await sql`create index access_log_customer on access_log (customer_id)`.execute(db)
  await sql`
    create trigger keep_as_made before update or delete on access_log
    for each row execute function refuse_change()`.execute(db)
}
