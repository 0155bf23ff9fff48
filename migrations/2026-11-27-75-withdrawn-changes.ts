import { type Kysely, sql } from 'kysely'

/** A change to booked work that the staff took back: it can't be accepted any more, which a declined one still can. */
export async function up(db: Kysely<any>): Promise<void> {
  await sql`alter table change_declined add column withdrawn_by bigint references account`.execute(db)
  await sql`
    create function withdrawn_stays() returns trigger language plpgsql as $$
    begin
      if exists (select 1 from change_declined where quote_id = new.quote_id and withdrawn_by is not null) then
        raise exception 'a change that was taken back can''t be accepted' using errcode = 'check_violation',
          constraint = 'acceptance_withdrawn';
      end if;
      return new;
    end $$`.execute(db)
  await sql`
    create trigger withdrawn before insert on acceptance
    for each row execute function withdrawn_stays()`.execute(db)
}
