import { type Kysely, sql } from 'kysely'

/**
 * A number that goes up with every change of what all public pages rest on, in the transaction of the change, so that
 * whoever keeps a copy knows by one small query whether it is still so. Changes wait for each other at its row.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table standing_number (
      "only" boolean primary key default true check ("only"),
      number bigint not null
    )`.execute(db)
  await sql`
    create function raise_standing_number() returns trigger language plpgsql as $$
    begin
      insert into standing_number (number) values (1)
      on conflict ("only") do update set number = standing_number.number + 1;
      return null;
    end $$`.execute(db)
  for (const table of ['business', 'rate_table', 'rate_table_called_off']) {
    await sql`
      create trigger raise_standing_number after insert or update or delete or truncate on ${sql.table(table)}
      for each statement execute function raise_standing_number()`.execute(db)
  }
}
