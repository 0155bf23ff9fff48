import { type Kysely, sql } from 'kysely'

/** Versions that were called off before their day: they are kept as they were made, and never come into force. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`
    create table rate_table_called_off (
      rate_table_id bigint primary key references rate_table,
      called_off_at timestamptz not null,
      called_off_by bigint not null references account
    )`.execute(db)
  await sql`
    create function call_off_before_its_day() returns trigger language plpgsql as $$
    begin
      if not exists (select 1 from rate_table
                     where id = new.rate_table_id and in_force_from > new.called_off_at)
         or exists (select 1 from ballpark where rate_table_id = new.rate_table_id)
         or exists (select 1 from quote where rate_table_id = new.rate_table_id) then
        raise exception 'a version can only be called off before its day, and before it is used'
          using errcode = 'check_violation', constraint = 'rate_table_called_off_in_time';
      end if;
      return new;
    end $$`.execute(db)
  await sql`
    create trigger in_time before insert on rate_table_called_off
    for each row execute function call_off_before_its_day()`.execute(db)
  await sql`
    create trigger keep_as_made before update or delete on rate_table_called_off
    for each row execute function refuse_change()`.execute(db)
}
