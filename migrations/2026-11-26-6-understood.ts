import { type Kysely, sql } from 'kysely'

/**
 * What was understood of beds, beside what was typed; null for what was stored before. A quote is kept as it was made,
 * except that this may be put down once where it is missing.
 */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`alter table quote_request add column understood jsonb, add column measured_understood jsonb`.execute(
    db,
  )
  await sql`alter table quote add column understood jsonb`.execute(db)
  await sql`
    create function refuse_change_of_quote() returns trigger language plpgsql as $$
    begin
      if tg_op = 'UPDATE' and old.understood is null
         and to_jsonb(new) - 'understood' = to_jsonb(old) - 'understood' then
        return new;
      end if;
      raise exception '% rows are kept as they were made', tg_table_name using errcode = 'integrity_constraint_violation';
    end $$`.execute(db)
  await sql`drop trigger keep_as_made on quote`.execute(db)
  await sql`
    create trigger keep_as_made before update or delete on quote
    for each row execute function refuse_change_of_quote()`.execute(db)
}
